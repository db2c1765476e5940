package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Watches the controller's own policy for cups that dry or drown while nobody is told: by the
 * simulator's own water, and by what was really sent.
 *
 * <p>A cup further past its dry line than the margin for six hours, or past its wet line for sixty,
 * must be named by an open alert that was told within the last day, or be covered by one of the
 * whole bench. Only alerts that speak of water, or of what keeps it away, count.
 */
final class UntoldCups implements Policy {
  private static final double MARGIN = 0.06;
  private static final double DRY_H = 6;
  private static final double WET_H = 60;
  private static final Duration TOLD_WITHIN = Duration.ofHours(24);

  /** These say nothing of a cup that dries. */
  private static final Set<String> BESIDE_DRYING =
      Set.of(
          "wet-too-long",
          "staying-wet",
          "rot-weather",
          "mould-weather",
          "lift-cover",
          "salts-high",
          "feed-old",
          "feed-change",
          "look-at-roots",
          "pot-on",
          "tray-full",
          "tank-low",
          "heat",
          "dose-over");

  /** These say nothing of a cup that stays wet. */
  private static final Set<String> BESIDE_WETNESS =
      Set.of(
          "near-dry",
          "mould-weather",
          "lift-cover",
          "salts-high",
          "feed-old",
          "feed-change",
          "look-at-roots",
          "pot-on",
          "tank-low",
          "tank-empty",
          "tank-unsuited",
          "heat");

  private final CupwardenPolicy controller;
  private final Scene scene;
  private final Stand stand;
  private final List<String> untold;
  private final Map<String, Told> open = new TreeMap<>();
  private final Instant[] drySince;
  private final Instant[] wetSince;
  private final boolean[] noted;

  /** When an alert was told last. */
  private record Told(AlertNotice notice, Instant at) {}

  UntoldCups(Scene scene, Stand stand, List<String> untold) throws SetupException {
    this.controller = new CupwardenPolicy(scene.bench(), scene.names());
    this.scene = scene;
    this.stand = stand;
    this.untold = untold;
    drySince = new Instant[scene.count()];
    wetSince = new Instant[scene.count()];
    noted = new boolean[scene.count()];
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    Decision decision = controller.decide(readings);
    decision.alerts().forEach(notice -> take(notice, readings.at()));
    for (int cup = 0; cup < scene.count(); cup++) {
      look(cup, readings.at());
    }
    return decision;
  }

  private void take(AlertNotice notice, Instant at) {
    String key = notice.code() + "/" + notice.cup() + "/" + notice.tank();
    if (notice.state().equals("cleared")) {
      open.remove(key);
    } else {
      open.put(key, new Told(notice, at));
    }
  }

  private void look(int cup, Instant at) {
    TrueCup truth = scene.cup(cup);
    boolean there = truth.alive() && stand.onBench()[cup];
    double depletion = truth.depletion();
    double dry = scene.lines(cup, stand.said()[cup]).dry();
    double wet = truth.depletionAtAir(scene.mix(cup).leastAir());
    drySince[cup] = since(drySince[cup], there && depletion > dry + MARGIN, at);
    wetSince[cup] = since(wetSince[cup], there && depletion < wet - MARGIN, at);
    if (stand.placeOf(cup) < 0) {
      return;
    }
    boolean dries = past(drySince[cup], DRY_H, at) && !told(cup, BESIDE_DRYING, at);
    boolean drowns = past(wetSince[cup], WET_H, at) && !told(cup, BESIDE_WETNESS, at);
    if ((dries || drowns) && !noted[cup]) {
      String name = scene.names().get(cup);
      untold.add(
          "%s %s %s untold: depletion %.3f, dry line %.2f, wet line %.2f; believed: %s; open: %s"
              .formatted(
                  at,
                  name,
                  dries ? "dries" : "drowns",
                  depletion,
                  dry,
                  wet,
                  controller.standing().decisions().get(name),
                  open.keySet()));
    }
    noted[cup] = dries || drowns;
  }

  private static Instant since(Instant was, boolean so, Instant at) {
    return so ? was == null ? at : was : null;
  }

  private static boolean past(Instant since, double hours, Instant at) {
    return since != null && Duration.between(since, at).toMinutes() >= hours * 60;
  }

  private boolean told(int cup, Set<String> beside, Instant at) {
    String name = scene.names().get(cup);
    for (Told told : open.values()) {
      AlertNotice notice = told.notice();
      boolean recent = Duration.between(told.at(), at).compareTo(TOLD_WITHIN) <= 0;
      boolean ofAll = notice.cup() == null && notice.cups().isEmpty();
      boolean names = name.equals(notice.cup()) || notice.cups().contains(name);
      if (recent && !beside.contains(notice.code()) && (ofAll || names)) {
        return true;
      }
    }
    return false;
  }
}
