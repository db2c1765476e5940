package dev.cupwarden.core.feeding;

import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.setup.Water;
import java.util.ArrayList;
import java.util.List;

/**
 * What a bench's water does to its cups over a winter, and what share of rain water cures it. Rain
 * is reckoned as without salts and alkalinity: what little it has only makes the share err low by a
 * hundredth or two.
 *
 * <p>Alkalinity, not pH, lifts the pH of a mix: bases that stay while the water goes. Then iron is
 * out of reach, and young leaves turn yellow (Lopez, Pasian and Mickelbart, Alkalinity in soilless
 * substrates, gpnmag.com, opened). Irrigation water should have 0 to 100 mg/L as calcium carbonate
 * (greenhousemag.com, water pH and alkalinity, opened); that a few cups over one winter bear 150 is
 * our choice.
 */
public final class WaterAdvice {
  /** Above this it is told, mg/L CaCO3. */
  private static final double ALKALINE_MG_PER_L = 100.0;

  /** Above this it is told as harm, mg/L CaCO3. */
  private static final double HARMFUL_MG_PER_L = 150.0;

  /** For seedlings and cuttings water should have less, mS/cm (extension texts, from memory). */
  private static final double SALTY_MS_PER_CM = 0.75;

  /** Above it a grower who measured nothing but pH has reason to measure alkalinity: our choice. */
  private static final double HIGH_PH = 7.2;

  private static final double MOST_SOIL_MS_PER_CM =
      RootMediumSalt.NORMAL.fromMsPerCm(RootMediumSalt.Extract.SATURATED);

  private WaterAdvice() {}

  /** What a person should know of that water, in sentences; none where it is good. */
  public static List<String> of(Water water) {
    List<String> told = new ArrayList<>();
    double alkalinity = water.alkalinityMgPerL().orElse(0.0);
    double ec = water.ecMsPerCm();
    if (alkalinity > ALKALINE_MG_PER_L) {
      String how = alkalinity > HARMFUL_MG_PER_L ? "harmful" : "high";
      told.add(Catalogue.say("advice.water.alkaline-" + how, alkalinity, ALKALINE_MG_PER_L));
    }
    if (ec > SALTY_MS_PER_CM) {
      told.add(Catalogue.say("advice.water.salty", ec, SALTY_MS_PER_CM));
      told.add(runsThrough(ec));
    }
    double rain = rainPart(water);
    if (rain > 0.0) {
      told.add(Catalogue.say("advice.water.rain", 100.0 * rain));
      told.add(Catalogue.say("advice.water.acid"));
    }
    boolean unmeasured = water.alkalinityMgPerL().isEmpty();
    if (unmeasured && water.ph().orElse(0.0) > HIGH_PH) {
      told.add(Catalogue.say("advice.water.measure", water.ph().getAsDouble()));
    }
    return List.copyOf(told);
  }

  private static String runsThrough(double ecMsPerCm) {
    if (ecMsPerCm >= 2.5 * MOST_SOIL_MS_PER_CM) {
      return Catalogue.say("advice.water.too-salty");
    }
    double part = Leaching.requirement(ecMsPerCm, MOST_SOIL_MS_PER_CM);
    return Catalogue.say("advice.water.leach", 100.0 * part);
  }

  /**
   * The part of rain water that brings it down to what cuttings bear, in twentieths, rounded up: 0
   * to 1.
   */
  public static double rainPart(Water water) {
    double alkaline = 1.0 - ALKALINE_MG_PER_L / water.alkalinityMgPerL().orElse(0.0);
    double salty = 1.0 - SALTY_MS_PER_CM / water.ecMsPerCm();
    return Math.ceil(20.0 * Math.max(0.0, Math.max(alkaline, salty)) - 1e-9) / 20.0;
  }
}
