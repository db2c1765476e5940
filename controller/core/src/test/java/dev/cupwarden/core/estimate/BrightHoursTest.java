package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Worked out by hand: 6 g over an index of 4 are 1.5 g each. */
class BrightHoursTest {
  @Test
  void whatWasMissedIsAsMuchAsInTheOtherBrightHours() {
    BrightHours hours = BrightHours.NONE.seen(2, 1).seen(4, 3).unseen(1).unseen(1);
    assertEquals(2.0, hours.missedIndexH());
    assertEquals(3.0, hours.missedG());
  }

  @Test
  void nothingWhereNoBrightHourWasSeenOrTheCupGained() {
    BrightHours unseen = BrightHours.NONE.unseen(2);
    assertEquals(0.0, unseen.missedIndexH());
    assertEquals(0.0, unseen.missedG());
    assertEquals(0.0, BrightHours.NONE.seen(-2, 1).unseen(2).missedG());
  }
}
