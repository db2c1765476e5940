package dev.cupwarden.core.tick;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A bench whose time is moved by hand. Cups lose what they are told to lose and gain what is put
 * out, unless a test says that water does not arrive.
 */
final class Story {
  static final String BENCH = read("/dev/cupwarden/core/setup/back-room.yaml");

  final Bench bench;
  final Tick tick;
  final SortedMap<String, Double> massG = new TreeMap<>();
  final SortedMap<String, Double> rateGPerH = new TreeMap<>();
  final SortedMap<String, Double> theta = new TreeMap<>();
  final SortedMap<String, Double> arrives = new TreeMap<>();
  final SortedMap<String, Double> tankMl = new TreeMap<>();
  final List<AlertNotice> alerts = new ArrayList<>();
  final List<Advice.Pass> passes = new ArrayList<>();
  double airC = Double.NaN;
  double rootC = Double.NaN;
  double outdoorC = Double.NaN;
  double rhPct = Double.NaN;
  boolean leak;
  boolean leakUnread;
  boolean clockInDoubt;
  boolean boardFault;
  boolean watchOnly;
  double lightUmol = Double.NaN;
  BenchState state;
  Instant at;

  Story(String yaml, String start, Tick.Rounds rounds) {
    try {
      bench = BenchFile.read("bench.yaml", yaml);
      tick = new Tick(bench, rounds);
    } catch (SetupException refused) {
      throw new IllegalArgumentException(refused.getMessage(), refused);
    }
    state = tick.fresh();
    at = Instant.parse(start);
  }

  static Story from(String start) {
    return new Story(BENCH, start, Tick.Rounds.ONE_A_TICK);
  }

  Story with(String cup, double grossG) {
    massG.put(cup, grossG);
    return this;
  }

  /** The same bench at this moment, to try something on. */
  Story copy() {
    Story copy = new Story(BENCH, at.toString(), Tick.Rounds.ONE_A_TICK);
    copy.massG.putAll(massG);
    copy.rateGPerH.putAll(rateGPerH);
    copy.state = state;
    return copy;
  }

  /** Time passes; cups dry; nobody looks. */
  Story wait(Duration time) {
    at = at.plus(time);
    massG.replaceAll(
        (cup, g) -> g - rateGPerH.getOrDefault(cup, 0.0) * time.toMillis() / 3_600_000.0);
    return this;
  }

  /** One tick at this moment, with these orders; what it puts out goes into the cups. */
  Advice look(String... orders) {
    return step(orders).advice();
  }

  /** Likewise, with all that came of it. */
  Tick.Step step(String... orders) {
    Tick.Step step = tick.step(state, observed(orders));
    state = step.state();
    for (Advice.Pass pass : step.advice().passes()) {
      double ml = (pass.plainMl() + pass.feedMl()) * arrives.getOrDefault(pass.cup(), 1.0);
      massG.computeIfPresent(pass.cup(), (cup, g) -> watchOnly ? g : g + ml);
      passes.add(pass);
    }
    alerts.addAll(step.advice().alerts());
    return step;
  }

  /** Ticks of five minutes for that long; the last advice. */
  Advice run(Duration time) {
    Advice last = null;
    for (long minutes = 0; minutes < time.toMinutes(); minutes += 5) {
      last = wait(Duration.ofMinutes(5)).look();
    }
    return last;
  }

  /** What the scales show at this moment, with nobody asking for anything. */
  Observation seen() {
    return observed();
  }

  private Observation observed(String... orders) {
    List<JsonNode> written = new ArrayList<>();
    for (String order : orders) {
      try {
        written.add(Json.MAPPER.readTree(order));
      } catch (JsonProcessingException broken) {
        throw new UncheckedIOException(broken);
      }
    }
    return new Observation(
        at,
        optional(airC),
        optional(rhPct),
        optional(rootC),
        optional(outdoorC),
        optional(lightUmol),
        new TreeMap<>(massG),
        new TreeMap<>(theta),
        new TreeMap<>(tankMl),
        leak,
        leakUnread,
        clockInDoubt,
        written,
        false,
        boardFault,
        watchOnly);
  }

  private static OptionalDouble optional(double value) {
    return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  double givenMl(String cup) {
    return passes.stream()
        .filter(pass -> pass.cup().equals(cup))
        .mapToDouble(pass -> pass.plainMl() + pass.feedMl())
        .sum();
  }

  boolean raised(String code) {
    return alerts.stream().anyMatch(a -> a.code().equals(code) && a.state().equals("raised"));
  }

  boolean cleared(String code) {
    return alerts.stream().anyMatch(a -> a.code().equals(code) && a.state().equals("cleared"));
  }

  private static String read(String resource) {
    try (InputStream in = Story.class.getResourceAsStream(resource)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }
}
