package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** Means over the last waterings, five at most and from the third on: our choice. */
class WateringHabitTest {
  private static final Instant FIRST = Instant.parse("2027-02-01T09:00:00Z");

  private static WateringHabit after(double... daysAndParts) {
    WateringHabit habit = WateringHabit.NONE;
    for (int i = 0; i < daysAndParts.length; i += 2) {
      Duration since = Duration.ofMinutes(Math.round(daysAndParts[i] * 1440.0));
      habit = habit.plus(FIRST.plus(since), daysAndParts[i + 1]);
    }
    return habit;
  }

  @Test
  void knownFromTheThirdWateringOn() {
    assertFalse(WateringHabit.NONE.known());
    assertFalse(after(0, 0.4, 4, 0.4).known());
    assertTrue(after(0, 0.4, 4, 0.4, 8, 0.4).known());
  }

  /** 4 and 5 days, with 0.3, 0.4 and 0.5 refilled. */
  @Test
  void meanOfTheGapsAndOfTheParts() {
    WateringHabit habit = after(0, 0.3, 4, 0.4, 9, 0.5);
    assertEquals(4.5, habit.everyDays(), 1e-9);
    assertEquals(0.4, habit.refilledPart(), 1e-9);
  }

  /** The last five lie on days 9, 12, 15, 18 and 20: 11 days in four gaps, 2.0 in five parts. */
  @Test
  void olderOnesThanTheLastFiveAreForgotten() {
    WateringHabit habit = after(0, 0.9, 9, 0.2, 12, 0.3, 15, 0.4, 18, 0.5, 20, 0.6);
    assertEquals(5, habit.recent().size());
    assertEquals(11.0 / 4.0, habit.everyDays(), 1e-9);
    assertEquals(0.4, habit.refilledPart(), 1e-9);
  }
}
