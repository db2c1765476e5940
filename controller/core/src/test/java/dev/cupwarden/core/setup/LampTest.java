package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalTime;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LampTest {
  @ParameterizedTest(name = "{0} to {1} at {2}: {3}")
  @CsvSource({
    "07:30, 21:00, 07:29, false",
    "07:30, 21:00, 07:30, true",
    "07:30, 21:00, 20:59, true",
    "07:30, 21:00, 21:00, false",
    "18:00, 06:00, 23:00, true",
    "18:00, 06:00, 05:59, true",
    "18:00, 06:00, 06:00, false",
    "18:00, 06:00, 17:59, false"
  })
  void burns(LocalTime from, LocalTime to, LocalTime at, boolean burns) {
    assertEquals(burns, new Lamp(from, to).burnsAt(at));
  }

  @Test
  void isReadFromTheBenchFile() throws SetupException {
    String bench = BenchTexts.backRoom();
    assertEquals(Optional.empty(), BenchFile.read("bench.yaml", bench).climate().lamp());
    Bench lit = BenchFile.read("bench.yaml", bench + "\nlamp: {from: \"07:30\", to: \"21:00\"}\n");
    Lamp lamp = new Lamp(LocalTime.of(7, 30), LocalTime.of(21, 0));
    assertEquals(Optional.of(lamp), lit.climate().lamp());
    assertEquals(12, lit.climate().coldC(), "the rest as it is");
  }

  @Test
  void thatNeverOrAlwaysBurnsIsRefused() {
    String bench = BenchTexts.backRoom() + "\nlamp: {from: \"08:00\", to: \"08:00\"}\n";
    SetupException refused =
        assertThrows(SetupException.class, () -> BenchFile.read("bench.yaml", bench));
    assertTrue(
        refused.getMessage().contains("lamp: from and to are both 08:00"), refused::getMessage);
    LocalTime eight = LocalTime.of(8, 0);
    assertThrows(IllegalArgumentException.class, () -> new Lamp(eight, eight));
  }
}
