package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.limits.FrostLimit;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.season.HardeningWeather;
import dev.cupwarden.core.season.HardeningWeather.Against;
import dev.cupwarden.core.season.Outings;
import dev.cupwarden.core.season.SeasonCard;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;

/**
 * The weather where cups are carried out to, told once of all of them: it is one for the bench. A
 * person's word for the day is told of every cup that is being hardened off; a thermometer outdoors
 * speaks only of those that are out, since each night is cold. Without either nothing is told.
 */
final class JudgeOutdoors {
  private static final double HYSTERESIS_C = 1.0;

  private JudgeOutdoors() {}

  static void judge(BenchDraft draft, Conditions to) {
    Optional<Against> byWord =
        draft
            .air
            .foretold()
            .of(draft.today())
            .flatMap(told -> HardeningWeather.byWord(told, draft.bench.climate().heatC()));
    List<String> out = names(draft, cup -> hardens(cup) && isOut(draft, cup));
    OptionalDouble nowC = draft.air.outdoorNowC(draft.at);
    Optional<Against> coldNow = HardeningWeather.byThermometer(nowC);
    if (!out.isEmpty() && coldNow.isPresent()) {
      // Of ice the frost is told, and of it alone.
      boolean ice = coldNow.get().valueC() < FrostLimit.ICE_C;
      to.add(told(coldNow.get(), ice ? Condition.Level.BETWEEN : Condition.Level.ON, out));
      return;
    }
    List<String> hardened = names(draft, cup -> isHardened(draft, cup));
    if (byWord.isPresent() && !hardened.isEmpty()) {
      to.add(told(byWord.get(), Condition.Level.ON, hardened));
      return;
    }
    boolean hardlyWarmer =
        !out.isEmpty()
            && nowC.isPresent()
            && nowC.getAsDouble() <= HardeningWeather.FROM_C + HYSTERESIS_C;
    to.add(
        AlertCode.KEEP_IN,
        null,
        hardlyWarmer ? Condition.Level.BETWEEN : Condition.Level.OFF,
        nowC.orElse(0.0),
        HardeningWeather.FROM_C);
  }

  private static Condition told(Against against, Condition.Level level, List<String> cups) {
    String key = "alert.keep-in.do." + against.cause().name().toLowerCase(Locale.ROOT);
    String words =
        Catalogue.say(
            key.replace('_', '-'), against.valueC(), against.boundC(), String.join(", ", cups));
    return new Condition(AlertCode.KEEP_IN, null, level, against.valueC(), against.boundC(), words);
  }

  /**
   * The frost of the bench, or where there is none, that of cups which are out: of any stage, as
   * frost asks for none.
   */
  static Condition frost(BenchDraft draft, Condition ofTheBench) {
    OptionalDouble nowC = draft.air.outdoorNowC(draft.at);
    if (ofTheBench.level() == Condition.Level.ON || nowC.isEmpty()) {
      return ofTheBench;
    }
    List<String> out = names(draft, cup -> isOut(draft, cup));
    Condition.Level level =
        out.isEmpty()
            ? Condition.Level.OFF
            : Condition.Level.below(
                nowC.getAsDouble(), FrostLimit.ICE_C, FrostLimit.ICE_C + HYSTERESIS_C);
    return level == Condition.Level.OFF
        ? ofTheBench
        : new Condition(
            AlertCode.FROST,
            null,
            level,
            nowC.getAsDouble(),
            FrostLimit.ICE_C,
            Catalogue.say("alert.frost.do.out", String.join(", ", out)));
  }

  private static List<String> names(BenchDraft draft, Predicate<CupDraft> test) {
    List<String> names = new ArrayList<>(0);
    for (CupDraft cup : draft.cups.values()) {
      if (test.test(cup)) {
        names.add(cup.name());
      }
    }
    return names;
  }

  /** Roots that take feed bear leaves that can be hardened. */
  private static boolean hardens(CupDraft cup) {
    return cup.setup.stage().takesFeed();
  }

  private static boolean isOut(BenchDraft draft, CupDraft cup) {
    return cup.plant.season().outings().out(draft.at);
  }

  /** Out now, or begun and not yet done. */
  private static boolean isHardened(BenchDraft draft, CupDraft cup) {
    Outings outings = cup.plant.season().outings();
    int days = outings.days(draft.at, draft.zone());
    return hardens(cup) && (outings.out(draft.at) || (days > 0 && days < SeasonCard.DAYS_OUT));
  }
}
