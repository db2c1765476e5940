package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.TickEntry;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A morning in which a thirsty cup gets its first pass, put down and asked about. */
class WhyCommandTest {
  private static final Instant SEVEN = Instant.parse("2027-02-14T07:00:00Z");

  @TempDir private Path folder;
  private final CommandRun command = CommandRun.apart();
  private final StringWriter out = command.out;
  private final StringWriter err = command.err;
  private Instant firstPass;

  @BeforeEach
  void aMorning() throws Exception {
    String text = BackRoom.text();
    Bench bench = BenchFile.read("bench.yaml", text.getBytes(StandardCharsets.UTF_8));
    Tick tick = new Tick(bench);
    BenchState state = tick.fresh();
    try (Journal journal = Journal.open(folder.resolve("journal.db"))) {
      journal.start(new Journal.Start(SEVEN.minusSeconds(1), text, state, "1"));
      for (int i = 0; i < 24; i++) {
        Instant at = SEVEN.plusSeconds(300L * i);
        String line =
            String.format(
                Locale.ROOT,
                "{\"at\":\"%s\",\"air_c\":20.5,\"root_c\":19.5,\"mass_g\":{\"A1\":%.2f}}",
                at,
                245 - 0.1 * i);
        Tick.Step step =
            tick.step(
                state, ObservationReader.read(line, state.cups().keySet(), bench.tanks().keySet()));
        state = step.state();
        if (firstPass == null && !step.passes().isEmpty()) {
          firstPass = at;
        }
        journal.commit(
            new TickEntry(
                at, line, state, Optional.empty(), step.brief().passes(), List.of(), List.of()));
      }
    }
  }

  private int why(String... args) {
    return command.execute(
        List.of("journal", "why", folder.resolve("journal.db").toString()), args);
  }

  @Test
  void beforeTheWindowItTellsWhenTheWindowOpens() {
    assertEquals(0, why("--cup", "A1", "--at", "2027-02-14T07:32:10Z"), err::toString);
    assertTrue(
        out.toString().startsWith("A1 at 2027-02-14T07:30:00Z: blackcurrant"), out::toString);
    assertTrue(
        out.toString().contains("window: outside the watering window, which opens in 0.5 h"),
        out::toString);
  }

  @Test
  void thePassOfThatMomentIsToldWithItsCauseAndThenTheSoak() {
    assertEquals(0, why("--cup", "A1", "--at", firstPass.toString()), err::toString);
    assertTrue(out.toString().contains("  given "), out::toString);
    assertEquals(0, why("--cup", "A1", "--at", firstPass.plusSeconds(300).toString()));
    assertTrue(out.toString().contains("soak: soaking for 5 of 12 min"), out::toString);
  }

  @Test
  void withoutATimeItIsTheLastThatWasSeen() {
    assertEquals(0, why("--cup", "B2"), err::toString);
    assertTrue(out.toString().startsWith("B2 at 2027-02-14T08:55:00Z"), out::toString);
    assertTrue(out.toString().contains("untrusted: its scale was never read"), out::toString);
  }

  @Test
  void whatTheJournalCannotAnswerIsSaidInASentence() {
    assertEquals(1, why("--cup", "Z9"));
    assertTrue(err.toString().contains("knows no cup Z9"), err::toString);
    assertEquals(1, why("--cup", "A1", "--at", "2020-01-01T00:00:00Z"));
    assertTrue(err.toString().contains("begins after 2020-01-01T00:00:00Z"), err::toString);
    assertEquals(2, why("--cup", "A1", "--at", "yesterday"));
  }
}
