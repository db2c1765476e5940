package dev.cupwarden.core.plants;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;

class RootingTimeTest {
  /** 14 to 28 days at 20 C above 4 C: 16 K a day, 224 to 448 degree days. */
  private static final RootingTime CURRANT = new RootingTime(new Span(14, 28), 20.0, 4.0);

  @Test
  void aDayIsWorthItsDegreeDays() {
    assertEquals(1.0, CURRANT.worth(20.0, 21.0), 1e-12);
    // 12 C is 8 K above the base: 28 days for 224 degree days, half as fast.
    assertEquals(0.5, CURRANT.worth(12.0, 21.0), 1e-12);
    assertEquals(0.0, CURRANT.worth(4.0, 21.0));
    assertEquals(0.0, CURRANT.worth(-5.0, 21.0));
  }

  /** At 21 C 17 K of 16. */
  @Test
  void moreWarmthThanIsWantedHastensNothing() {
    assertEquals(17.0 / 16.0, CURRANT.worth(21.0, 21.0), 1e-12);
    assertEquals(17.0 / 16.0, CURRANT.worth(35.0, 21.0), 1e-12);
    assertEquals(1.0, CURRANT.worth(35.0, 15.0), 1e-12, "its days go with 20 C whatever is wanted");
  }

  @Test
  void whereNobodyTellsOfTheWarmthADayIsADay() {
    assertEquals(1.0, CURRANT.worth(Double.NaN, 21.0));
  }

  @Test
  void whatSaysNothingIsRefused() {
    Span days = new Span(14, 28);
    assertThrows(IllegalArgumentException.class, () -> new RootingTime(days, 10.0, 10.0));
    assertThrows(IllegalArgumentException.class, () -> new Span(28, 14));
    Span warm = new Span(15, 21);
    assertThrows(
        IllegalArgumentException.class,
        () -> new Plant("x", List.of(), 0.11, warm, CURRANT, false, PlantSources.BENCH_FILE));
  }
}
