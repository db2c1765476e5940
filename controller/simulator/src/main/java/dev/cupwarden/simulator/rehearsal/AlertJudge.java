package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.messages.AlertNotice;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Holds alerts against the truth, for those codes whose truth the simulator knows; see {@link
 * Condition}. An alert is true if its condition held, in the wide sense, within a day before or
 * after it was raised. A condition that came to hold in the strict sense is missed if no alert of
 * its code told of it within 48 h.
 */
final class AlertJudge {
  private static final RehearsalCondition[] CONDITIONS = RehearsalCondition.values();

  /** Added to the code of alerts by a bound, which are counted apart. */
  static final String BY_BOUND = "-bound";

  /** Added to the code of alerts that have grown severe, while they are. */
  static final String SEVERE = "-severe";

  /** In place of a cup: the whole bench. */
  static final int BENCH = -1;

  private static final double JUDGED_WITHIN_H = 24;
  private static final double FOUND_WITHIN_H = 48;

  /** Conditions last for hours: it is enough to look at them every so many ticks. */
  private static final int LOOK_EVERY = 6;

  private static final double LONG_AGO_H = 1e9;

  private final Scene scene;
  private final Stand stand;
  private final double lookH;
  private final Map<Integer, Set<String>> active = new TreeMap<>();
  private final Map<String, AlertCount> counts = new TreeMap<>();
  private final Watch[][] watches;

  AlertJudge(Scene scene, Stand stand) {
    this.scene = scene;
    this.stand = stand;
    this.lookH = LOOK_EVERY * scene.bench().tick().toSeconds() / 3600.0;
    this.watches = new Watch[CONDITIONS.length][scene.count()];
    for (Watch[] row : watches) {
      for (int cup = 0; cup < row.length; cup++) {
        row[cup] = new Watch();
      }
    }
  }

  /** One condition at one cup. */
  private static final class Watch {
    double strictH;
    double wideH;
    double sinceWideH = LONG_AGO_H;
    double openH = -1;
    double pendingH = -1;
  }

  /** Takes the alerts of a tick and looks at every condition as it is now. */
  void tick(List<AlertNotice> notices, long tick, double rootC) {
    for (AlertNotice notice : notices) {
      take(notice);
    }
    if (tick % LOOK_EVERY != 0) {
      return;
    }
    for (RehearsalCondition condition : CONDITIONS) {
      int cups = condition == RehearsalCondition.COLD ? 1 : scene.count();
      for (int cup = 0; cup < cups; cup++) {
        if (stand.onBench()[cup] || condition == RehearsalCondition.COLD) {
          look(condition, cup, tick, rootC);
        }
      }
    }
  }

  private void take(AlertNotice notice) {
    int cup = notice.cup() == null ? BENCH : Collections.binarySearch(scene.names(), notice.cup());
    Set<String> codes = active.computeIfAbsent(cup, key -> new TreeSet<>());
    String code =
        notice.tank() == null ? notice.code() : notice.code() + " of tank " + notice.tank();
    codes.remove(code + SEVERE);
    if (notice.state().equals("cleared")) {
      codes.remove(code);
      return;
    }
    if (notice.severity() > 0) {
      codes.add(code + SEVERE);
    }
    if (!codes.add(code)) {
      return;
    }
    if (notice.bound()) {
      // It says what may be, not what is: true at less than every second cup, and no false alarm.
      count(notice.code() + BY_BOUND).raised++;
      return;
    }
    count(notice.code()).raised++;
    RehearsalCondition condition = RehearsalCondition.of(notice.code());
    if (condition == null) {
      return;
    }
    count(notice.code()).judged++;
    if (cup != BENCH) {
      watches[condition.ordinal()][cup].pendingH = 0;
    } else if (anyWide(condition)) {
      count(notice.code()).trueOnes++;
    }
  }

  private boolean anyWide(RehearsalCondition condition) {
    for (Watch watch : watches[condition.ordinal()]) {
      if (watch.sinceWideH <= JUDGED_WITHIN_H) {
        return true;
      }
    }
    return false;
  }

  private void look(RehearsalCondition condition, int cup, long tick, double rootC) {
    Watch watch = watches[condition.ordinal()][cup];
    boolean alive = scene.cup(cup).alive() || condition == RehearsalCondition.COLD;
    boolean wide = alive && condition.wide(scene, stand, cup, tick, rootC);
    boolean strict = alive && condition.strict(scene, stand, cup, tick, rootC);
    watch.wideH = wide ? watch.wideH + lookH : 0;
    watch.sinceWideH = watch.wideH > condition.wideForH ? 0 : watch.sinceWideH + lookH;
    if (watch.pendingH >= 0) {
      if (watch.sinceWideH <= JUDGED_WITHIN_H) {
        count(condition.code).trueOnes++;
        watch.pendingH = -1;
      } else {
        watch.pendingH += lookH;
        watch.pendingH = watch.pendingH > JUDGED_WITHIN_H ? -1 : watch.pendingH;
      }
    }
    boolean held = watch.strictH > condition.strictForH;
    watch.strictH = strict ? watch.strictH + lookH : 0;
    if (!held && watch.strictH > condition.strictForH && watch.openH < 0) {
      count(condition.code).conditions++;
      watch.openH = 0;
    }
    if (watch.openH >= 0) {
      follow(watch, condition, cup);
    }
  }

  private void follow(Watch watch, RehearsalCondition condition, int cup) {
    watch.openH += lookH;
    if (active(cup, condition.toldBy()) || active(BENCH, condition.toldBy())) {
      watch.openH = -1;
    } else if (watch.openH > FOUND_WITHIN_H) {
      count(condition.code).missed++;
      watch.openH = -1;
    }
  }

  private AlertCount count(String code) {
    return counts.computeIfAbsent(code, key -> new AlertCount());
  }

  /** Whether one of these alerts holds for that cup, or for {@link #BENCH}. */
  boolean active(int cup, Set<String> codes) {
    Set<String> own = active.get(cup);
    return own != null && !own.isEmpty() && !Collections.disjoint(own, codes);
  }

  /** By code. */
  Map<String, AlertCount> counts() {
    return counts;
  }
}
