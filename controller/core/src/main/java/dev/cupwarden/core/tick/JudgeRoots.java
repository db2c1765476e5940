package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.estimate.RootSignal;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.RootingClock;
import dev.cupwarden.core.plants.Span;
import dev.cupwarden.core.setup.RootStage;
import java.util.Optional;

/**
 * When roots are worth a look: once the first of its plant have some by their days and warmth, once
 * the last of them have, or once the cup uses more than it did.
 */
final class JudgeRoots {
  private JudgeRoots() {}

  static void judge(BenchDraft draft, CupDraft cup, Conditions to) {
    Optional<Condition> byAge = byAge(draft, cup);
    if (byAge.isPresent()) {
      to.add(byAge.get());
    } else {
      byUse(draft, cup, to);
    }
  }

  private static Optional<Condition> byAge(BenchDraft draft, CupDraft cup) {
    RootingClock clock = cup.plant.rooting();
    if (cup.setup.stage() != RootStage.STRUCK || clock == null) {
      return Optional.empty();
    }
    return cup.frame.plant().flatMap(plant -> byAge(draft, cup, plant, clock));
  }

  /** As a part of the days after which the first, or the last, have roots. */
  private static Optional<Condition> byAge(
      BenchDraft draft, CupDraft cup, Plant plant, RootingClock clock) {
    Span days = plant.rooting().days();
    return switch (clock.expected(plant.rooting(), draft.at)) {
      case NOTHING -> Optional.empty();
      case ROOTS_CAN_BE ->
          Optional.of(told(cup, clock.days() / days.least(), "can-be", plant.name()));
      case ROOTS_ARE_LATE ->
          Optional.of(told(cup, clock.days() / days.most(), "late", plant.name()).severe(1));
    };
  }

  private static Condition told(CupDraft cup, double part, String which, String plant) {
    return new Condition(
        AlertCode.LOOK_AT_ROOTS,
        cup.name(),
        Condition.Level.ON,
        part,
        1.0,
        Catalogue.say("alert.look-at-roots." + which, plant));
  }

  /**
   * Half way back to what is expected, the sign is gone. Who has looked lately and found none is
   * told of leaves instead, where it has begun since.
   */
  private static void byUse(BenchDraft draft, CupDraft cup, Conditions to) {
    double ratio = cup.plant.roots().ratio();
    RootingClock clock = cup.plant.rooting();
    boolean none =
        cup.setup.stage() == RootStage.STRUCK && clock != null && clock.seenLately(draft.at);
    Condition.Level level =
        cup.plant.roots().draws()
            ? none ? Condition.Level.BETWEEN : Condition.Level.ON
            : ratio < (1.0 + RootSignal.LOOK_AT) / 2.0
                ? Condition.Level.OFF
                : Condition.Level.BETWEEN;
    to.add(AlertCode.LOOK_AT_ROOTS, cup.name(), level, ratio, RootSignal.LOOK_AT);
  }
}
