package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a look knows before its reading is judged: passes that are awaited for half an hour. */
class LookTest {
  private final Cups cup = new Cups();

  private Look in(double minutes) {
    CupReading reading = CupReading.of(cup.now.plusSeconds(Math.round(60 * minutes)), 300);
    return new Look(cup.state, Cups.TALL, reading);
  }

  /** Ten days for 271.754 mL. */
  @Test
  void guessOfACupOfWhichNothingIsKnown() {
    assertEquals(1.13231, in(0).guessGPerH(), 1e-5);
    assertEquals(0, in(0).hoursUnread);
    assertTrue(Double.isNaN(in(0).lastReadG));
    assertFalse(in(0).awaitedOpen());
    assertFalse(in(0).firstAfterOrder());
  }

  @Test
  void timeAndWeightOfTheLastReading() {
    cup.reads(300);
    assertEquals(0.5, in(30).hoursUnread);
    assertEquals(300, in(30).lastReadG);
  }

  /** However late, the first reading after an order is the first look at it. */
  @Test
  void passThatNoReadingFollowedIsAwaited() {
    cup.reads(300);
    cup.look(5, Double.NaN, 30, true);
    assertTrue(in(500).awaitedOpen());
    assertTrue(in(500).firstAfterOrder());
    assertEquals(30, in(500).awaitedMl);
  }

  @ParameterizedTest(name = "{0} min after it was ordered: {1}")
  @CsvSource({"30, true", "31, false"})
  void passThatDidNotShowIsAwaitedForHalfAnHour(double minutes, boolean open) {
    cup.reads(300);
    cup.look(5, Double.NaN, 30, true);
    cup.looks(1, 300);
    Look look = in(minutes - 1);
    assertEquals(open, look.awaitedOpen());
    assertFalse(look.firstAfterOrder());
  }

  @Test
  void orderOfThisLookIsAddedToWhatIsAwaited() {
    cup.reads(300);
    cup.look(5, Double.NaN, 30, true);
    cup.look(5, Double.NaN, 15, true);
    assertEquals(45, in(1).awaitedMl);
    cup.looks(1, 300);
    cup.looks(60, 300);
    cup.look(5, Double.NaN, 20, true);
    assertEquals(20, in(1).awaitedMl, "the others are given up");
  }
}
