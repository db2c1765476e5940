package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchSafety;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.tick.Tick;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The bench that comes with the program. */
class ExampleBenchTest {
  @Test
  void itLacksNothingAndCanBeRun() throws SetupException {
    Bench bench = BackRoom.bench();
    assertEquals(12, bench.cups().size());
    assertEquals(List.of(), new BenchSafety(bench).faults());
    new Tick(bench);
  }
}
