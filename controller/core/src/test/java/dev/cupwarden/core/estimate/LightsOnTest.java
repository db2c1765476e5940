package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A leafy cup on a good cell: 0.3 g/h by night, 3 to 4 g/h from lights-on, at once. Twelve days,
 * five-minute looks, a cell of 0.1 g; watered by our own passes at seven tenths.
 */
class LightsOnTest {
  private static final int DAYS = 12;
  private static final double CELL_SD_G = 0.1;

  private final Cups cup = new Cups();
  private final Random random = new Random(12);
  private double trueG = Cups.TALL.massG(0.2);
  private int untrusted;
  private double greatestLagG;
  private double greatestOff;
  private double greatestNoiseG;

  private static double gPerH(int look) {
    double hour = look / 12.0 % 24;
    return hour < 8 || hour >= 20 ? 0.3 : 3 + (hour - 8) / 12;
  }

  /** What is known of the light: by a sensor, the lamp's hours, the clock alone, or not at all. */
  private enum Known {
    SENSOR,
    LAMP,
    HOUR,
    NOTHING;

    LightKnown at(double hour, boolean lit) {
      return switch (this) {
        case SENSOR -> new LightKnown(lit ? 150 : 0, Double.NaN, hour);
        case LAMP -> new LightKnown(Double.NaN, Double.NaN, Double.NaN).byLamp(lit);
        case HOUR -> new LightKnown(Double.NaN, Double.NaN, hour);
        case NOTHING -> LightKnown.NOTHING;
      };
    }
  }

  private void live(Known known) {
    double orderedMl = 0;
    for (int look = 0; look < DAYS * 288; look++) {
      double rate = gPerH(look);
      trueG += orderedMl - rate / 12;
      LightKnown light = known.at(look / 12.0 % 24, gPerH(look + 1) > 1);
      double shownG = trueG + CELL_SD_G * random.nextGaussian();
      CupEstimate seen =
          cup.look(5, new CupReading(Cups.START, shownG, orderedMl, 1.0, 20, light, true));
      untrusted += seen.trusted() ? 0 : 1;
      greatestNoiseG = Math.max(greatestNoiseG, cup.state.noiseG());
      if (orderedMl == 0) {
        greatestLagG = Math.max(greatestLagG, Math.abs(seen.massG() - trueG));
      }
      double off = Cups.TALL.depletion(seen.massG()) - Cups.TALL.depletion(trueG);
      greatestOff = Math.max(greatestOff, Math.abs(off));
      boolean due = Cups.TALL.depletion(seen.massG()) > (orderedMl > 0 ? 0.2 : 0.7);
      orderedMl = due && look % 6 == 0 ? 25 : 0;
    }
  }

  private void holds() {
    assertEquals(0, untrusted, "looks at which the scale was not believed");
    assertTrue(greatestLagG < 0.5, "lag " + greatestLagG);
    assertTrue(greatestOff < 0.03, "depletion off by " + greatestOff);
    assertTrue(greatestNoiseG < Noise.GREAT_SD_G, "noise " + greatestNoiseG);
    assertTrue(
        cup.events.stream().allMatch(each -> each instanceof WeightEvent.OwnDose),
        () -> "" + cup.events);
  }

  @ParameterizedTest
  @EnumSource
  void isFollowed(Known known) {
    live(known);
    holds();
  }

  /** The look at lights-on, days after the first: the rate has risen with it. */
  @ParameterizedTest
  @EnumSource(names = {"SENSOR", "LAMP", "HOUR"})
  void rateIsThatOfTheLampAtOnce(Known known) {
    live(known);
    for (int look = 0; look < 8 * 12; look++) {
      trueG -= gPerH(look) / 12;
      cup.look(
          5, new CupReading(Cups.START, trueG, 0, 1.0, 20, known.at(look / 12.0, false), true));
    }
    double before = cup.estimate().rateGPerH();
    trueG -= gPerH(95) / 12;
    cup.look(5, new CupReading(Cups.START, trueG, 0, 1.0, 20, known.at(8, true), true));
    double after = cup.estimate().rateGPerH();
    assertEquals(0.3, before, 0.15, "by night");
    assertEquals(3, after, 1.2, "lit");
  }
}
