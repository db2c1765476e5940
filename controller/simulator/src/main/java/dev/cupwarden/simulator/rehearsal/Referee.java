package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Window;
import dev.cupwarden.core.watering.Cause;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/**
 * Looks at every pass with no more than the bench file, the readings and what the person said, and
 * notes each broken limit by its name. It shares no rule with the controller's limits.
 */
final class Referee {
  private static final Duration NO_READING_FOR = Duration.ofMinutes(12);

  /** After so long without a reading a pass can only be a blind ration. */
  private static final Duration BLIND_AFTER = Duration.ofHours(2);

  /** What a learned capacity may differ from the foretold one, for sums held against it. */
  private static final double LEARNED = 1.25;

  /** A pass that its cup shows in part counts in part, as behind a slow pump: the design's rule. */
  private static final double LEAST_COUNTED = 0.75;

  /** A scale that shows less than this part of the dry cup has no cup on it. */
  private static final double OFF_PART = 0.5;

  /** A cup back from a day outside may be watered so much later. */
  private static final Duration LONGER_FOR_RETURNED = Duration.ofHours(2);

  private static final double ROUNDING_ML = 0.06;

  private final Scene scene;
  private final Bench bench;
  private final Instant[] lastPass;
  private final Instant[] lastRead;
  private final Instant[] lastOff;
  private final List<Deque<Given>> given = new ArrayList<>();
  private final List<String> broken = new ArrayList<>();
  private int fedTooEarly;

  /** What one pass brought. */
  private record Given(Instant at, double ml, double strength) {}

  Referee(Scene scene, Instant start) {
    this.scene = scene;
    this.bench = scene.bench();
    this.lastPass = new Instant[scene.count()];
    this.lastRead = new Instant[scene.count()];
    this.lastOff = new Instant[scene.count()];
    for (int cup = 0; cup < scene.count(); cup++) {
      lastRead[cup] = start;
      given.add(new ArrayDeque<>());
    }
  }

  void see(RehearsalReadings readings) {
    for (int cup = 0; cup < lastRead.length; cup++) {
      if (!Double.isNaN(readings.massG()[cup])) {
        lastRead[cup] = readings.at();
      }
      if (readings.massG()[cup] < OFF_PART * scene.nominal(cup).dryG()) {
        lastOff[cup] = readings.at();
      }
    }
  }

  void judge(Watering pass, RehearsalReadings readings) {
    int cup = pass.cup();
    Instant at = readings.at();
    boolean rescue = pass.why().equals(Cause.RESCUE.word());
    double most =
        Math.min(bench.watering().passMl(), scene.nominal(cup).capacityMl() / 10 * LEARNED);
    note(pass.totalMl() > most + ROUNDING_ML, LimitCode.PASS, pass, at);
    note(
        lastPass[cup] != null && at.isBefore(lastPass[cup].plus(bench.watering().soak())),
        LimitCode.SOAK,
        pass,
        at);
    note(!rescue && !inWindow(cup, at), LimitCode.WINDOW, pass, at);
    note(!readings.onBench()[cup], LimitCode.AWAY, pass, at);
    note(frost(readings), LimitCode.FROST, pass, at);
    note(!rescue && readings.air().rootC() < bench.climate().coldC(), LimitCode.COLD, pass, at);
    Duration unread = Duration.between(lastRead[cup], at);
    boolean blind = unread.compareTo(BLIND_AFTER) > 0;
    note(!blind && unread.compareTo(NO_READING_FOR) > 0, LimitCode.UNTRUSTED, pass, at);
    if (pass.strength() > unseenStrength()) {
      fedTooEarly += scene.cup(cup).stage().takesFeed() ? 0 : 1;
      note(!rescue && !readings.stageSaid()[cup].takesFeed(), LimitCode.STAGE, pass, at);
      note(pass.strength() > bench.feeding().ceiling() + 1e-6, LimitCode.LEDGER, pass, at);
    }
    lastPass[cup] = at;
    given.get(cup).addLast(new Given(at, pass.totalMl(), pass.strength()));
    sums(pass, at);
  }

  /** A shared hose may carry 5 mg/L N to a cup that gets no feed: the design's rule. */
  private double unseenStrength() {
    double labelMgPerL = scene.labelNMgPerMl() * 1000;
    return labelMgPerL > 0 ? 5 / labelMgPerL : 0;
  }

  private void sums(Watering pass, Instant at) {
    Deque<Given> passes = given.get(pass.cup());
    Instant fromLabel = at.minus(Duration.ofMinutes(Math.round(scene.labelDays() * 1440)));
    while (passes.peekFirst().at().isBefore(fromLabel)) {
      passes.removeFirst();
    }
    double labels = 0;
    double dayMl = 0;
    for (Given each : passes) {
      labels += each.ml() * each.strength();
      dayMl += each.at().isAfter(at.minus(Duration.ofHours(24))) ? each.ml() : 0;
    }
    double available = scene.nominal(pass.cup()).availableMl() * LEARNED;
    note(pass.strength() > 0 && labels > available, LimitCode.LEDGER, pass, at);
    note(LEAST_COUNTED * dayMl > available * 1.2, LimitCode.DAY_VOLUME, pass, at);
  }

  private boolean inWindow(int cup, Instant at) {
    if (bench.watering().window() instanceof Window.Hours hours) {
      ZonedDateTime now = at.atZone(scene.zone());
      LocalTime clock = now.toLocalTime();
      Instant off = lastOff[cup];
      boolean returned =
          off != null && off.atZone(scene.zone()).toLocalDate().equals(now.toLocalDate());
      LocalTime to = returned ? hours.to().plus(LONGER_FOR_RETURNED) : hours.to();
      return !clock.isBefore(hours.from()) && clock.isBefore(to);
    }
    return true;
  }

  /** Roots that may freeze, or air in which water freezes in a drip end. */
  private boolean frost(RehearsalReadings readings) {
    return readings.air().rootC() < bench.climate().frostC() || readings.air().airC() <= 0.5;
  }

  private void note(boolean isBroken, LimitCode limit, Watering pass, Instant at) {
    if (isBroken) {
      broken.add(at + " " + scene.names().get(pass.cup()) + " " + limit.word() + " " + pass);
    }
  }

  /** Every broken limit, in order of time. */
  List<String> broken() {
    return broken;
  }

  /** Passes with feed on roots that cannot take it. */
  int fedTooEarly() {
    return fedTooEarly;
  }
}
