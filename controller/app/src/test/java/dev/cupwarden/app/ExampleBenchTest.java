package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.Tick;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import java.io.IOException;
import java.io.InputStream;
import org.junit.jupiter.api.Test;

class ExampleBenchTest {
  @Test
  void theExampleThatComesWithTheProgramIsRight() throws IOException, SetupException {
    try (InputStream in =
        ExampleBenchTest.class.getResourceAsStream("/dev/cupwarden/app/back-room.yaml")) {
      Bench bench = BenchFile.read("back-room.yaml", in.readAllBytes());
      assertTrue(bench.board().isPresent());
      assertEquals(12, bench.cups().size());
      new Tick(bench);
    }
  }
}
