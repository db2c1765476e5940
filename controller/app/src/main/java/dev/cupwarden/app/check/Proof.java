package dev.cupwarden.app.check;

import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.board.Pace;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.FloatSwitch;
import dev.cupwarden.core.setup.Cup;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;

/**
 * What a board and a person who stands by prove together: that the pump-run timer runs out without
 * its heartbeat, that each valve lets water to its own cup and to no other, that leak sensor and
 * floats are seen to change. It pumps a few mL to each cup; all outputs are off after each step.
 */
final class Proof {
  /** Enough to be seen by a scale, too little to matter to a cup that was just watered. */
  static final double PASS_ML = 5.0;

  /**
   * Of a pass of 5 mL: a full hose gives it at once, a half-empty one the rest of it. Our choice.
   */
  private static final double LEAST_RISE_G = 2.0;

  private static final double MOST_RISE_G = 9.0;

  /** What noise and a person's step do to a scale that nothing is pumped to. Our choice. */
  private static final double MOST_BESIDE_G = 1.0;

  private static final int LOOKS = 3;
  private static final Duration BEATS = Duration.ofSeconds(3);
  private static final Duration BEAT_EVERY = Duration.ofMillis(250);
  private static final Duration SILENCE = Duration.ofSeconds(3);
  private static final Duration SETTLES = Duration.ofSeconds(20);
  private static final Duration LOOK_EVERY = Duration.ofSeconds(1);
  private static final int MOST_LOOKS = 60;

  /** Who stands by. */
  interface Person {
    /** Waits until it is done. */
    void please(String wish) throws IOException;

    /** Whether they say yes. */
    boolean sees(String question) throws IOException;
  }

  private final Bench bench;
  private final BoardWiring wiring;
  private final BenchBoard board;
  private final Pace pace;
  private final Person person;

  /**
   * @param bench with its board
   */
  Proof(Bench bench, BenchBoard board, Pace pace, Person person) {
    this.bench = bench;
    this.wiring = bench.board().orElseThrow();
    this.board = board;
    this.pace = pace;
    this.person = person;
  }

  /** All steps, the dry ones first; what is not wired has none. */
  List<Finding> all() throws IOException {
    List<Finding> findings = new ArrayList<>();
    if (wiring.more().heartbeat().isPresent()) {
      findings.add(timer());
    }
    if (wiring.more().leak().isPresent()) {
      findings.add(changes("the leak sensor", "Wet", "Dry", BoardReadings::leak));
    }
    for (Map.Entry<String, BoardWiring.TankGauge> gauge :
        new TreeMap<>(wiring.more().gauges()).entrySet()) {
      if (gauge.getValue() instanceof FloatSwitch) {
        String tank = gauge.getKey();
        person.please("Hold down the float of the tank " + tank + ".");
        findings.add(
            changes(
                "the float of the tank " + tank,
                "Lift",
                "Hold down",
                seen -> seen.tankAtLeastMl().containsKey(tank)));
      }
    }
    findings.addAll(valves());
    return findings;
  }

  /** With the pump off: lamp on while the heart beats, off soon after. */
  private Finding timer() throws IOException {
    person.please("Watch the lamp at the pump-run timer: it should burn for some three seconds.");
    long end = pace.nanos() + BEATS.toNanos();
    while (pace.nanos() < end) {
      board.beat();
      pace.pause(BEAT_EVERY);
    }
    pace.pause(SILENCE);
    return person.sees("Did the lamp burn, and go out within two seconds of its own accord?")
        ? Finding.ok("proof", "the pump-run timer runs out without its heartbeat")
        : Finding.fail(
            "proof",
            "The pump-run timer did not show that it cuts the pump: measure its output while the"
                + " heartbeat beats, and after.");
  }

  private Finding changes(String part, String there, String back, Predicate<BoardReadings> shows)
      throws IOException {
    if (shows.test(board.read())) {
      return Finding.fail(
          "proof", "The program sees %s as if it were done: expected not.".formatted(part));
    }
    person.please("%s %s.".formatted(there, part));
    if (!comes(shows)) {
      return Finding.fail(
          "proof", "The program does not see %s: measure its line, and its wire.".formatted(part));
    }
    person.please("%s %s again.".formatted(back, part));
    return comes(shows.negate())
        ? Finding.ok("proof", part + " is seen, there and back")
        : Finding.fail("proof", "The program sees %s still: it does not let go.".formatted(part));
  }

  private boolean comes(Predicate<BoardReadings> shows) {
    for (int look = 0; look < MOST_LOOKS; look++) {
      if (shows.test(board.read())) {
        return true;
      }
      pace.pause(LOOK_EVERY);
    }
    return false;
  }

  /** A few mL to each cup: its own scale must rise, and no other. */
  private List<Finding> valves() throws IOException {
    List<Finding> findings = new ArrayList<>();
    if (!person.sees(
        "Is the hose filled with plain water, and may each cup have %.0f mL of it now?"
            .formatted(PASS_ML))) {
      findings.add(Finding.fail("proof", "The valves were not tried."));
      return findings;
    }
    for (Cup cup : bench.cups().values()) {
      if (cup.wiring().scale().isPresent() && cup.wiring().valve().isPresent()) {
        findings.add(valve(cup.name()));
      }
    }
    return findings;
  }

  private Finding valve(String cup) {
    SortedMap<String, Double> before = weights();
    try {
      board.runPump(cup, Duration.ofMillis(Math.round(PASS_ML / wiring.pump().mlPerS() * 1e3)));
    } catch (BoardException failed) {
      return Finding.fail("proof", "Cup %s: %s".formatted(cup, failed.getMessage()));
    }
    pace.pause(SETTLES);
    SortedMap<String, Double> after = weights();
    for (Map.Entry<String, Double> other : after.entrySet()) {
      Double was = before.get(other.getKey());
      if (!other.getKey().equals(cup) && was != null && other.getValue() - was > MOST_BESIDE_G) {
        return Finding.fail(
            "proof",
            text(
                "Water for cup %s came to cup %s, %.1f g of it: tubes or valves are exchanged, or"
                    + " one stands open.",
                cup, other.getKey(), other.getValue() - was));
      }
    }
    if (!before.containsKey(cup) || !after.containsKey(cup)) {
      return Finding.fail("proof", "The scale of cup %s does not answer.".formatted(cup));
    }
    double rose = after.get(cup) - before.get(cup);
    return rose >= LEAST_RISE_G && rose <= MOST_RISE_G
        ? Finding.ok("proof", text("%.1f g of %.0f mL came to cup %s", rose, PASS_ML, cup))
        : Finding.fail(
            "proof",
            text(
                "Of %.0f mL for cup %s its scale shows %.1f g: look at its valve, its tube's end"
                    + " and the hose.",
                PASS_ML, cup, rose));
  }

  /** The mean of a few looks, by cup; a cup that one of them missed is missing. */
  private SortedMap<String, Double> weights() {
    SortedMap<String, Double> sums = new TreeMap<>(board.read().massG());
    for (int look = 1; look < LOOKS; look++) {
      pace.pause(LOOK_EVERY);
      SortedMap<String, Double> seen = board.read().massG();
      sums.keySet().retainAll(seen.keySet());
      sums.replaceAll((cup, sum) -> sum + seen.get(cup));
    }
    sums.replaceAll((cup, sum) -> sum / LOOKS);
    return sums;
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
