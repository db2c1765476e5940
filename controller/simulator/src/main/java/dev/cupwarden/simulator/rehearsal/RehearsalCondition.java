package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.simulator.faults.InjectedFault;
import dev.cupwarden.simulator.world.TrueCup;

/**
 * A state of the simulated bench that an alert ought to tell of. In the strict sense, held for so
 * long, it must be told; in the wide sense, held for so long, an alert of it is no false one.
 */
enum RehearsalCondition {
  /** A day past the wet line; wide also between capacity and refill line. */
  STAYING_WET("staying-wet", 24, 18) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return WET_TOO_LONG.strict(scene, stand, cup, tick, rootC);
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return WET_TOO_LONG.wide(scene, stand, cup, tick, rootC);
    }
  },
  /** Two days so. */
  WET_TOO_LONG("wet-too-long", 48, 36) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).airFraction() < scene.mix(cup).leastAir();
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      TrueCup truth = scene.cup(cup);
      double refill = scene.lines(cup, stand.said()[cup]).refill();
      return truth.airFraction() < scene.mix(cup).leastAir() + 0.01
          || truth.depletion() < Math.max(refill, 0) + 0.02;
    }
  },
  /** Judged only when raised: how long a cup needs to dry is of its own rate. */
  ROT_WEATHER("rot-weather", Double.POSITIVE_INFINITY, 24) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).airFraction() < scene.mix(cup).leastAir() + 0.06;
    }
  },
  /** Past its dry line; wide within a tenth of it. */
  NEAR_DRY("near-dry", 0.5, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).depletion() > lines(scene, stand, cup).dry();
    }

    @Override
    boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return scene.cup(cup).depletion() > lines(scene, stand, cup).dry() - 0.1;
    }
  },
  SCALE_STUCK("scale-stuck", 2, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.SCALE_STUCK, cup) && !stand.silent(cup);
    }
  },
  /** Told after an hour and a half, or sooner. */
  SCALE_SILENT("scale-silent", 2, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.silent(cup);
    }
  },
  SCALE_NOISY("scale-noisy", 4, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.SCALE_NOISY, cup);
    }
  },
  /** Away for hours without a word; a person who said so need not be told of it. */
  CUP_AWAY("cup-away", 6, 0) {
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
  SALTS_HIGH("salts-high", 24, 0) {
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
  DOSE_SHORT("dose-short", Double.POSITIVE_INFINITY, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.VALVE_CLOGGED, cup);
    }
  },
  VALVE_LEAKING("valve-leaking", 24, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.faults().holds(InjectedFault.VALVE_DRIPPING, cup);
    }
  },
  CUPS_SWAPPED("cups-swapped", 1, 0) {
    @Override
    boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC) {
      return stand.swapped(cup);
    }
  },
  COLD("cold", 1, 0) {
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

  final String code;
  final double strictForH;
  final double wideForH;

  RehearsalCondition(String code, double strictForH, double wideForH) {
    this.code = code;
    this.strictForH = strictForH;
    this.wideForH = wideForH;
  }

  abstract boolean strict(Scene scene, Stand stand, int cup, long tick, double rootC);

  boolean wide(Scene scene, Stand stand, int cup, long tick, double rootC) {
    return strict(scene, stand, cup, tick, rootC);
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
