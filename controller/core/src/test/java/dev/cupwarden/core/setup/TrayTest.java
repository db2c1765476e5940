package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** The key {@code tray}. */
class TrayTest {
  private static double trayMl(String written) throws SetupException {
    return BenchFile.read("bench.yaml", BenchTexts.backRoom() + written).trayMl();
  }

  @Test
  void aSmallOneIsAssumedUnlessTheFileSaysMore() throws SetupException {
    assertEquals(500.0, trayMl(""));
    assertEquals(16_000.0, trayMl("tray: 16 L\n"));
  }

  @Test
  void whatIsNoTrayIsRefusedWithItsPlace() {
    for (String wrong : new String[] {"tray: 50 mL\n", "tray: 16\n", "tray: 3 kg\n"}) {
      SetupException refused = assertThrows(SetupException.class, () -> trayMl(wrong));
      assertTrue(refused.getMessage().contains(" tray: "), refused.getMessage());
    }
  }
}
