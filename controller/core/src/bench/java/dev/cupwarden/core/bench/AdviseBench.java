package dev.cupwarden.core.bench;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Locale;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/** A line in, a line out, for 200 cups: at most 1 ms in brief, 5 ms with every cup told. */
@State(Scope.Thread)
public class AdviseBench {
  private static final int CUPS = 200;
  private static final int WEIGHED_IN = 500;

  private final String[] weights = new String[CUPS];
  private Bench bench;
  private Tick tick;
  private BenchState state;
  private Instant now = Instant.parse("2027-02-14T06:00:00Z");
  private int lines;

  @Setup
  public void weighIn() throws IOException, SetupException, LineRefused {
    for (int line = 0; line < CUPS; line++) {
      weights[line] = weights(line);
    }
    bench = bench();
    tick = new Tick(bench);
    state = tick.fresh();
    // As on a bench that has stood for a while: rates known, cups due, some held back.
    for (int line = 0; line < WEIGHED_IN; line++) {
      state = step().state();
    }
  }

  private static Bench bench() throws IOException, SetupException {
    String yaml;
    try (InputStream in =
        AdviseBench.class.getResourceAsStream("/dev/cupwarden/core/setup/back-room.yaml")) {
      yaml = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    StringBuilder text = new StringBuilder(yaml.substring(0, yaml.indexOf("\ncups:") + 7));
    String[] stages = {"struck", "white", "toughened", "circling"};
    for (int cup = 0; cup < CUPS; cup++) {
      text.append(
          String.format(
              "  C%03d: {vessel: tall, mix: coir-perlite, plant: vine, stage: %s, cutting: 12 g}%n",
              cup, stages[cup % stages.length]));
    }
    return BenchFile.read("bench.yaml", text.toString().getBytes(StandardCharsets.UTF_8));
  }

  /** Cups dry by some 20 g, are full again, and so on, each at its own time. */
  private static String weights(int line) {
    StringBuilder text = new StringBuilder(4_000);
    char before = '{';
    for (int cup = 0; cup < CUPS; cup++) {
      double noiseG = 0.05 * (((line * 31L + cup) * 2654435761L & 1023) / 512.0 - 1);
      double massG = 330 - 0.1 * ((line + cup) % CUPS) + noiseG;
      text.append(before).append(String.format(Locale.ROOT, "\"C%03d\":%.2f", cup, massG));
      before = ',';
    }
    return text.append('}').toString();
  }

  private String line() {
    now = now.plusSeconds(300);
    lines++;
    return "{\"at\":\""
        + now
        + "\",\"air_c\":20.5,\"rh_pct\":48,\"root_c\":19,\"mass_g\":"
        + weights[lines % CUPS]
        + "}";
  }

  private Tick.Step step() throws LineRefused {
    return tick.step(
        state, ObservationReader.read(line(), state.cups().keySet(), bench.tanks().keySet()));
  }

  /** With {@code --brief}. */
  @Benchmark
  public byte[] brief() throws LineRefused, JsonProcessingException {
    Tick.Step step = step();
    state = step.state();
    return Json.MAPPER.writeValueAsBytes(step.brief());
  }

  /** With every cup. */
  @Benchmark
  public byte[] full() throws LineRefused, JsonProcessingException {
    Tick.Step step = step();
    state = step.state();
    return Json.MAPPER.writeValueAsBytes(step.advice());
  }

  /** The library alone, reading and writing the same line. */
  @Benchmark
  public byte[] plainJson() throws JsonProcessingException {
    return Json.MAPPER.writeValueAsBytes(Json.MAPPER.readTree(line()));
  }
}
