package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.tick.Tick;
import org.junit.jupiter.api.Test;

class ExampleBenchTest {
  @Test
  void theExampleThatComesWithTheProgramIsRight() throws SetupException {
    Bench bench = BackRoom.bench();
    assertTrue(bench.board().isPresent());
    assertEquals(12, bench.cups().size());
    new Tick(bench);
  }
}
