package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.simulator.faults.InjectedFault;
import java.util.Set;

/**
 * A state of the simulated bench that an alert ought to tell of. In the strict sense, held for so
 * long, it must be told; in the wide sense, held for so long, an alert of it is no false one.
 */
enum RehearsalCondition {
  /** A day past the wet line; wide also with little more air than that. */
  STAYING_WET(AlertCode.STAYING_WET, 24, 18) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return WET_TOO_LONG.strict(scene, stand, cup, tick, rootC);
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return WET_TOO_LONG.wide(scene, stand, cup, tick, rootC);
    }

    @Override
    Set<String> toldBy() {
      return Set.of(code, ASKED);
    }
  },
  /** Two days so. */
  WET_TOO_LONG(AlertCode.WET_TOO_LONG, 48, 36) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).airFraction() < scene.mix(cup).leastAir();
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).airFraction() < scene.mix(cup).leastAir() + 0.06;
    }

    @Override
    Set<String> toldBy() {
      return Set.of(code, ASKED);
    }
  },
  /** Judged only when raised: how long a cup needs to dry is of its own rate. */
  ROT_WEATHER(AlertCode.ROT_WEATHER, Double.POSITIVE_INFINITY, 24) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).airFraction() < scene.mix(cup).leastAir() + 0.06;
    }
  },
  /** Past its dry line; wide within a tenth of it. */
  NEAR_DRY(AlertCode.NEAR_DRY, 0.5, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).depletion() > lines(scene, stand, cup).dry();
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).depletion() > lines(scene, stand, cup).dry() - 0.1;
    }
  },
  SCALE_STUCK(AlertCode.SCALE_STUCK, 2, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.SCALE_STUCK, cup) && !stand.silent(cup);
    }
  },
  /** Told after an hour and a half, or sooner. */
  SCALE_SILENT(AlertCode.SCALE_SILENT, 2, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.silent(cup);
    }
  },
  SCALE_NOISY(AlertCode.SCALE_NOISY, 4, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.SCALE_NOISY, cup);
    }
  },
  /** Away for hours without a word; a person who said so need not be told of it. */
  CUP_AWAY(AlertCode.CUP_AWAY, 6, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.away(cup, tick) && !stand.awayTold(cup);
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.away(cup, tick);
    }
  },
  /** More salt than seedlings bear, by the salts truly in the cup. */
  SALTS_HIGH(AlertCode.SALTS_HIGH, 24, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).ecAtCapacityMsPerCm() > 1.1 * SaltBalance.MOST_MS_PER_CM;
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).ecAtCapacityMsPerCm() > 0.8 * SaltBalance.MOST_MS_PER_CM;
    }
  },
  /** Judged only when raised: a valve that clogs between waterings is not yet a short dose. */
  DOSE_SHORT(AlertCode.DOSE_SHORT, Double.POSITIVE_INFINITY, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.VALVE_CLOGGED, cup);
    }
  },
  VALVE_LEAKING(AlertCode.VALVE_LEAKING, 24, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.VALVE_DRIPPING, cup);
    }
  },
  CUPS_SWAPPED(AlertCode.CUPS_SWAPPED, 1, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.swapped(cup);
    }
  },
  COLD(AlertCode.COLD, 1, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return rootC < scene.bench().climate().coldC() - 0.3;
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return rootC < scene.bench().climate().coldC() + 0.5;
    }
  };

  private static final RehearsalCondition[] ALL = values();

  private static final String ASKED = AlertCode.WEIGH_DRAINED.word() + AlertJudge.SEVERE;

  final String code;
  final double strictForH;
  final double wideForH;

  RehearsalCondition(AlertCode alert, double strictForH, double wideForH) {
    this.code = alert.word();
    this.strictForH = strictForH;
    this.wideForH = wideForH;
  }

  abstract boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC);

  boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
    return strict(scene, stand, cup, tick, rootC);
  }

  /** Alerts that tell of it; a severe one that asks for a weighing says that it may be wet. */
  Set<String> toldBy() {
    return Set.of(code);
  }

  private static StageLines lines(Scene scene, Stand stand, int cup) {
    return scene.lines(cup, stand.said()[cup]);
  }

  /** The condition of that alert, or null where the simulator knows no truth. */
  static RehearsalCondition of(String code) {
    for (RehearsalCondition condition : ALL) {
      if (condition.code.equals(code)) {
        return condition;
      }
    }
    return null;
  }
}
