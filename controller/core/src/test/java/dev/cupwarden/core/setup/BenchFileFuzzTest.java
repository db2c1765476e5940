package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.longrun.Fuzz;
import dev.cupwarden.core.longrun.Slips;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

@Tag("long")
class BenchFileFuzzTest {
  @Test
  void everySlipInABenchFileGivesABenchOrASentence() throws Exception {
    Fuzz.of(
        "the bench file",
        "every file with slips in it gave a bench, or one sentence that begins with its place.",
        random -> {
          Slips slips = new Slips(random);
          String good = random.nextBoolean() ? BenchTexts.wired() : BenchTexts.backRoom();
          byte[] file = slips.in(good).getBytes(StandardCharsets.UTF_8);
          if (random.nextInt(4) == 0) {
            file = slips.in(file);
          }
          try {
            BenchFile.read("bench.yaml", file);
          } catch (SetupException refused) {
            assertTrue(refused.getMessage().startsWith("bench.yaml"), refused.getMessage());
            assertFalse(refused.getMessage().contains("\n"), refused.getMessage());
          }
        });
  }
}
