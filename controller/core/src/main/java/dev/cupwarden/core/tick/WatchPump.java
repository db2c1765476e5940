package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakSensor;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.dosing.PumpTrial;
import dev.cupwarden.core.dosing.WaterBalance;
import dev.cupwarden.core.state.TankState;
import java.util.Map;

/**
 * What stops the pump for every cup, and how a bench of which no person has looked goes on all the
 * same: rescues after a leak that has dried up, a trial of a pump that brought nothing or whose
 * water went astray. A pump that runs on waits for a person: no look at a sensor and no trial shows
 * that it will stop the next time.
 */
final class WatchPump {
  private WatchPump() {}

  /** After readings and orders were taken and passes judged. */
  static void look(BenchDraft draft) {
    balanceTanks(draft);
    LeakSensor seen =
        draft.seen.leak()
            ? LeakSensor.WET
            : draft.seen.leakUnread() ? LeakSensor.UNREAD : LeakSensor.DRY;
    double trayMl = draft.bench.trayMl() - draft.pump.trayMl();
    draft.pump =
        draft.pump.with(draft.pump.watch().leak().look(draft.at, seen, draft.before.at(), trayMl));
    if (draft.pump.watch().trial().lapsed(draft.at)) {
      draft.pump = draft.pump.with(draft.pump.watch().trial().failed(draft.at));
    }
  }

  /** By how much each gauge fell beyond what was ordered out of its tank. */
  private static void balanceTanks(BenchDraft draft) {
    boolean sound =
        draft.pump.watch().leak().stage() == LeakWatch.Stage.SOUND && !draft.seen.leak();
    WaterBalance balance = draft.pump.watch().leak().balance();
    for (Map.Entry<String, Double> gauge : draft.seen.tankMl().entrySet()) {
      TankState was = draft.before.tanks().get(gauge.getKey());
      if (was == null || was.readAt() == null || !Double.isFinite(was.leftMl())) {
        continue;
      }
      double fellMl = was.leftMl() - gauge.getValue();
      boolean byWord = was.mixedAt() != null && !was.mixedAt().isBefore(was.readAt());
      if (!byWord || fellMl < 0.0) {
        balance = balance.gauge(fellMl, sound);
      }
    }
    boolean filled = draft.tanks.values().stream().anyMatch(t -> draft.at.equals(t.mixedAt()));
    // Who fills a tank beside a dry sensor has the bench before their eyes.
    draft.pump =
        draft.pump.with(
            draft.pump.watch().leak().with(filled && sound ? WaterBalance.NONE : balance));
  }

  /** After a cup's weight has judged a pass. */
  static void judged(BenchDraft draft, CupDraft cup, PassOnTrial pass) {
    boolean arrived = cup.finding.verdict() != DoseCheck.Verdict.SHORT;
    count(draft, pass, arrived ? pass.orderedMl() : cup.finding.riseG());
    if (!draft.pump.watch().trial().judgedBy(cup.name())) {
      return;
    }
    PumpTrial trial = draft.pump.watch().trial();
    Latch latch = draft.pump.latch();
    if (latch != null && trial.passed(latch, cup.finding, draft.pumpPart())) {
      pumpWorks(draft);
    } else {
      draft.pump = draft.pump.with(trial.failed(draft.at));
    }
  }

  /** After no reading has judged it. */
  static void unseen(BenchDraft draft, PassOnTrial pass) {
    count(draft, pass, 0.0);
  }

  private static void count(BenchDraft draft, PassOnTrial pass, double foundMl) {
    draft.pump =
        draft.pump.with(
            draft
                .pump
                .watch()
                .leak()
                .with(draft.pump.watch().leak().balance().pass(pass.orderedMl(), foundMl)));
  }

  /**
   * What held the pump held the cups that showed that nothing came; one to which water came by
   * itself stays latched.
   */
  private static void pumpWorks(BenchDraft draft) {
    PumpTrial trial = draft.pump.watch().trial();
    draft.pump = draft.pump.with(PumpTrial.NONE).latched(null);
    for (CupDraft cup : draft.cups.values()) {
      boolean showed = draft.pump.shortCups().contains(cup.name()) || trial.judgedBy(cup.name());
      if (showed && shortOfWater(cup)) {
        cup.latch = null;
        cup.witness = cup.witness.withoutShortRun();
      }
    }
  }

  /** Whether a cup is held for nothing but a pass that did not arrive, or not at all. */
  private static boolean shortOfWater(CupDraft cup) {
    return cup.latch == null || cup.latch.is(AlertCode.DOSE_SHORT);
  }

  /** After a pass was put out. */
  static void gave(BenchDraft draft, String cup, double ml) {
    draft.pump = draft.pump.with(draft.pump.watch().leak().gave(draft.at, ml));
    if (trialDue(draft)) {
      draft.pump = draft.pump.with(draft.pump.watch().trial().begun(cup, draft.at));
    }
  }

  /** Whether one pass may try the pump now. */
  static boolean trialDue(BenchDraft draft) {
    return draft.pump.watch().trial().due(draft.pump.latch(), draft.at);
  }

  /** Whether a cup can try the pump: its weight must be able to tell. */
  static boolean canTry(CupDraft cup) {
    return cup.now.trusted() && cup.witness.onTrial() == null && shortOfWater(cup);
  }

  /** Ends whatever stopped the pump: a person has looked. */
  static void clear(BenchDraft draft) {
    draft.pump = draft.pump.cleared();
  }
}
