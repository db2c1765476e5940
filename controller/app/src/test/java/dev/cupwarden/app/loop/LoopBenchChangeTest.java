package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.DecisionReplay;
import dev.cupwarden.app.journal.JournalExport;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A bench file changed by orders, over the program's restarts. */
class LoopBenchChangeTest extends LoopOnABench {
  private void order(String path, String from, String to) throws Exception {
    orderedNow("change", ", \"path\": \"%s\", \"from\": %s, \"to\": %s".formatted(path, from, to));
  }

  private LoopStart start() throws Exception {
    return LoopStart.of(parts(BenchHardware.of(board), Optional.empty()));
  }

  @Test
  void goesOnAfterARestart() throws Exception {
    BenchLoop loop = loop();
    order("watering.pass", "\"30 mL\"", "\"21 mL\"");
    ticks(loop, 1);
    assertEquals("done", outcomeOf("change"));
    LoopStart again = start();
    assertEquals(21.0, again.tick().bench().watering().passMl());
    assertEquals(1, again.state().orders().changes().size());
    assertEquals(benchText, fileOf(again).replace("21 mL", "30 mL"));
  }

  private static String fileOf(LoopStart start) {
    return start.tick().text().orElseThrow().yaml();
  }

  @Test
  void isOverOnceTheFileSaysSoItself() throws Exception {
    BenchLoop loop = loop();
    order("watering.pass", "\"30 mL\"", "\"21 mL\"");
    ticks(loop, 1);
    edit("pass: 30 mL", "pass: 21 mL");
    assertTrue(start().state().orders().changes().isEmpty());
    edit("pass: 21 mL", "pass: 25 mL");
    assertEquals(25.0, start().tick().bench().watering().passMl());
  }

  @Test
  void fileThatSaysOtherwiseMeanwhileHolds() throws Exception {
    BenchLoop loop = loop();
    order("watering.pass", "\"30 mL\"", "\"21 mL\"");
    ticks(loop, 1);
    edit("pass: 30 mL", "pass: 25 mL");
    LoopStart again = start();
    assertEquals(25.0, again.tick().bench().watering().passMl());
    assertTrue(again.state().orders().changes().isEmpty());
    ticks(loop(), 1);
    edit("pass: 25 mL", "pass: 30 mL");
    assertEquals(30.0, start().tick().bench().watering().passMl(), "for good");
  }

  /** What was decided after a change is decided anew with it. */
  @Test
  void replayChangesTheBenchToo() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 3);
    order("lines.circling", "null", "{\"due\": 0.3, \"refill\": 0.0, \"dry\": 0.65}");
    ticks(loop, 2);
    Instant at = last().at();
    var told =
        last().cups().stream().filter(cup -> cup.cup().equals("C4")).findFirst().orElseThrow();
    try (JournalExport export = JournalExport.open(journal.file())) {
      assertEquals(told, DecisionReplay.of(export, "C4", at).cup());
      assertFalse(
          told.equals(
              DecisionReplay.of(export, "C4", at.minus(bench.tick().multipliedBy(2))).cup()));
    }
  }
}
