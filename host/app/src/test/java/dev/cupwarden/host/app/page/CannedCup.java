package dev.cupwarden.host.app.page;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Decision;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.StageLines;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One cup as a page test needs it: its status and the weights and doses that led there, by a plain
 * rule (loses water in proportion to what it holds, is refilled by day when past its due line).
 */
final class CannedCup {
  static final Duration STEP = Duration.ofMinutes(15);
  private static final int STEPS = 14 * 96;
  static final Duration SPAN = STEP.multipliedBy(STEPS);
  private static final double WET = -0.04;

  /** What is wrong with the cup, if anything. */
  enum Fate {
    WELL,
    NEGLECTED,
    DROWNED,
    DOUBTED,
    AWAY,
    HELD
  }

  private static final double LEAST_ML = 5.0;

  final String name;
  boolean hasValve = true;
  final List<Double> at = new ArrayList<>();
  final List<Double> massG = new ArrayList<>();
  final List<Event> doses = new ArrayList<>();
  CupStatus status;

  CannedCup(String bench, int index, Fate fate, Instant now) {
    this.name = bench.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + (index + 1);
    RootStage stage = RootStage.values()[index % 4];
    StageLines lines = StageLines.usual(stage);
    double availableMl = index % 3 == 2 ? 92.0 : 218.4;
    double capacityG = index % 3 == 2 ? 176.5 : 412.7;
    double depletion = 0.1 + 0.07 * (index % 7);
    double firstRate = 0.006 + 0.0011 * (index % 5);
    Instant start = now.minus(STEP.multipliedBy(STEPS));
    for (int i = 0; i <= STEPS; i++) {
      Instant when = start.plus(STEP.multipliedBy(i));
      double perStep = firstRate * (0.7 + 0.9 * i / STEPS) * STEP.toMinutes() / 60;
      depletion += perStep * Math.max(0.1, 1.1 - depletion);
      int hour = when.atOffset(ZoneOffset.UTC).getHour();
      boolean neglected = fate == Fate.NEGLECTED && i > STEPS - 6 * 96;
      boolean day = hour >= 8 && hour < 16;
      if (!neglected && day && (depletion > lines.due() || refilling(i))) {
        double ml = Math.min(30, (depletion - lines.refill()) * availableMl);
        if (ml >= 5) {
          water(when, ml, stage, i);
          depletion -= ml / availableMl;
        } else {
          lastDoseStep = -10;
        }
      }
      if (fate == Fate.DROWNED && i == STEPS - 8) {
        depletion = -0.12;
      }
      at.add((double) when.getEpochSecond());
      massG.add(Math.round((capacityG - depletion * availableMl + noise(i)) * 10) / 10.0);
    }
    double perHour = firstRate * 1.6 * Math.max(0.1, 1.1 - depletion);
    double roomMl = (depletion - lines.refill()) * availableMl;
    Instant dueAt = depletion < lines.due() ? after(now, (lines.due() - depletion) / perHour) : now;
    this.status =
        new CupStatus(
            now,
            name,
            List.of("blackcurrant", "mulberry", "pomegranate", "vine", "elder").get(index % 5),
            stage,
            activity(fate, depletion, lines),
            massG.get(massG.size() - 1),
            Math.round(depletion * 1000) / 1000.0,
            0.008,
            perHour * availableMl,
            dueAt,
            after(now, Math.max(0, lines.dry() - depletion) / perHour),
            after(now, 0.8 * Math.max(0, lines.dry() - depletion) / perHour),
            fate == Fate.AWAY || fate == Fate.DOUBTED ? null : inOpenHours(dueAt),
            fate != Fate.DOUBTED,
            stage.takesFeed() ? 0.31 : 0,
            capacityG,
            availableMl,
            WET,
            lines.refill(),
            lines.due(),
            lines.dry(),
            hundredths(roomMl),
            hundredths(roomMl < LEAST_ML ? 0 : Math.min(roomMl, Math.min(30, availableMl / 10))),
            LEAST_ML,
            stage.takesFeed()
                ? new CupStatus.NextFeed(
                    0.2448,
                    75.0,
                    0.769,
                    new CupStatus.Told(
                        "strength",
                        101.1,
                        75.0,
                        "mg/L N",
                        "most-n",
                        "its root stage takes at most 75 mg/L N, not 101"))
                : null,
            stage == RootStage.STRUCK ? likelyRoots(now) : null,
            null,
            told(fate, depletion, stage));
  }

  private int lastDoseStep = -10;

  private boolean refilling(int step) {
    return step - lastDoseStep <= 1;
  }

  private void water(Instant when, double ml, RootStage stage, int step) {
    double feedMl = stage.takesFeed() ? ml / 2 : 0;
    Dose dose = new Dose(name, ml - feedMl, feedMl, stage.takesFeed() ? 0.25 : 0, "due", "given");
    doses.add(
        new Event(
            "e1",
            1000L * name.hashCode() + step,
            when,
            "dose",
            name,
            Json.MAPPER.valueToTree(dose)));
    lastDoseStep = step;
  }

  private static double hundredths(double value) {
    return Math.round(value * 100) / 100.0;
  }

  private static double noise(int i) {
    return 0.25 * Math.sin(i * 12.9898) * Math.cos(i * 4.1414);
  }

  private static CupStatus.Rooting likelyRoots(Instant now) {
    LocalDate today = now.atZone(ZoneOffset.UTC).toLocalDate();
    return new CupStatus.Rooting(
        new CupStatus.LikelyDay(today.plusDays(4), today.plusDays(9), today.plusDays(15)),
        new CupStatus.LikelyDay(today.plusDays(15), today.plusDays(21), today.plusDays(30)));
  }

  /** From eight to four, as the bench is set up. */
  private static Instant inOpenHours(Instant at) {
    LocalDate day = LocalDate.ofInstant(at, ZoneOffset.UTC);
    Instant opens = day.atTime(8, 0).toInstant(ZoneOffset.UTC);
    Instant closes = day.atTime(16, 0).toInstant(ZoneOffset.UTC);
    return at.isBefore(opens) ? opens : at.isBefore(closes) ? at : opens.plus(Duration.ofDays(1));
  }

  private static Instant after(Instant now, double hours) {
    return now.plusSeconds(Math.round(hours * 3600));
  }

  private static CupActivity activity(Fate fate, double depletion, StageLines lines) {
    return switch (fate) {
      case NEGLECTED -> CupActivity.DRY;
      case DROWNED -> CupActivity.WET;
      case DOUBTED -> CupActivity.UNTRUSTED;
      case AWAY -> CupActivity.AWAY;
      case HELD -> CupActivity.HELD;
      case WELL -> depletion > lines.due() ? CupActivity.DUE : CupActivity.STEADY;
    };
  }

  private static List<CupStatus.Told> told(Fate fate, double depletion, RootStage stage) {
    List<CupStatus.Told> told = new ArrayList<>();
    switch (fate) {
      case DROWNED ->
          told.add(
              new CupStatus.Told(
                  "too-wet", depletion, WET, "", "It holds more water than its wet line allows."));
      case DOUBTED ->
          told.add(
              new CupStatus.Told(
                  "untrusted",
                  47,
                  45,
                  "min",
                  "Its scale has not moved for 47 min while others did."));
      case AWAY -> told.add(new CupStatus.Told("away", 1, 0, "", "It is off the bench."));
      case HELD ->
          told.add(new CupStatus.Told("hold", 20, 0, "h", "A hold stops it for another 20 h."));
      default -> {}
    }
    if (!stage.takesFeed()) {
      told.add(new CupStatus.Told("stage", 0, 1, "", "Roots at this stage take no feed."));
    }
    return told;
  }

  /** As it is set up. */
  BenchSetup.Cup setup() {
    return new BenchSetup.Cup(
        status.availableMl() > 100 ? "tall" : "short",
        "coir-perlite",
        status.plant(),
        Optional.of(LocalDate.parse("2026-11-14")),
        status.stage(),
        12,
        new StageLines(status.due(), status.refill(), status.dry()),
        null,
        new BenchSetup.Wired(
            Optional.of(name.replace('A', 's')),
            hasValve ? Optional.of(name.replace('A', 'v')) : Optional.empty(),
            Optional.empty()));
  }

  /** By night outside the window, by day free; now as its status says. */
  ObjectNode reasonsAt(Instant at, Instant now) {
    LocalDate day = LocalDate.ofInstant(at, ZoneOffset.UTC);
    Instant opens = day.atTime(8, 0).toInstant(ZoneOffset.UTC);
    Instant closes = day.atTime(16, 0).toInstant(ZoneOffset.UTC);
    boolean open = !at.isBefore(opens) && at.isBefore(closes);
    Instant turned = open ? opens : at.isBefore(opens) ? closes.minus(Duration.ofDays(1)) : closes;
    Instant until = open ? closes : at.isBefore(opens) ? opens : opens.plus(Duration.ofDays(1));
    // A controller says it again at least every three hours.
    Instant again = at.minusSeconds(at.getEpochSecond() % 10_800);
    Instant last = again.isAfter(turned) ? again : turned;
    List<CupStatus.Told> reasons =
        open
            ? status.reasons()
            : List.of(
                new CupStatus.Told(
                    "window", 600, 0, "min", "outside the watering window, which opens in 10.0 h"));
    Decision decision =
        new Decision(status.state(), status.massG(), status.depletion(), 1.2, 0.9, 0, 0.4, reasons);
    ObjectNode told = Json.MAPPER.valueToTree(decision);
    told.put("since", turned.toString()).put("told", last.toString());
    return told.put("until", until.isAfter(now) ? null : until.toString());
  }

  /** What a host draws from decisions: every third hour. */
  ObjectNode course(double from, double to) {
    ObjectNode course = Json.MAPPER.createObjectNode();
    for (String curve :
        List.of("at", "depletion", "rate_g_h", "vpd_kpa", "fed", "salt_ms_per_cm")) {
      course.putArray(curve);
    }
    for (int i = 0; i < at.size(); i += 12) {
      if (at.get(i) < from || at.get(i) > to) {
        continue;
      }
      course.withArray("at").add(at.get(i));
      course.withArray("depletion").add((status.capacityG() - massG.get(i)) / status.availableMl());
      course.withArray("rate_g_h").add(0.8 + 0.9 * i / STEPS);
      course.withArray("vpd_kpa").add(0.9 + 0.2 * Math.sin(i / 15.0));
      course.withArray("fed").add(status.fed() * i / STEPS);
      course.withArray("salt_ms_per_cm").add(0.4 + 0.7 * i / STEPS);
    }
    return course;
  }

  /** The status again, with another state, as live news. */
  CupStatus become(CupActivity state, Instant now) {
    tell("state", state.word());
    return tell("at", now.toString());
  }

  /** The status again, with that field as a controller would write it. */
  CupStatus tell(String field, Object value) {
    ObjectNode changed = Json.MAPPER.valueToTree(status);
    changed.set(field, Json.MAPPER.valueToTree(value));
    status = Json.MAPPER.convertValue(changed, CupStatus.class);
    return status;
  }
}
