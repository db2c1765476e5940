package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A cup of 300 g, 50 g at least, whose reading may be 2 g off: exactly at each bound of a cover,
 * and just beyond it.
 */
class CoverBoundsTest {
  private static final Cover TOLD = Cover.NONE.told(true, after(0));

  private static Instant after(double minutes) {
    return Cups.START.plusMillis(Math.round(60_000 * minutes));
  }

  private static Cover shows(Cover cover, double minutes, double readG) {
    return cover.seen(after(minutes), readG, 50, 300, 2);
  }

  @ParameterizedTest(name = "{0} g: {1} g are the cover''s")
  @CsvSource({
    "302, 0",
    "302.5, 2.5",
    "298, 0",
    "297.5, -2.5",
    "799.5, 499.5",
    "800, 0",
    "50, -250"
  })
  void stepBeyondTwoGramsAndBelowFiveHundredIsTheCovers(double readG, double offG) {
    assertEquals(offG, shows(TOLD, 5, readG).offG(), 1e-9);
  }

  @ParameterizedTest(name = "{0} g: lies on the cup {1}")
  @CsvSource({"303, true", "302.5, false"})
  void coverOfThreeGramsIsLookedFor(double readG, boolean rests) {
    assertEquals(rests, shows(TOLD, 5, readG).rests());
  }

  @ParameterizedTest(name = "at {0} min: {1} g")
  @CsvSource({"10, 12", "10.1, 0"})
  void stepIsTheCoversForTenMinutes(double minutes, double offG) {
    Cover read = shows(TOLD, 5, 300);
    assertEquals(offG, shows(read, minutes, 312).offG());
  }

  @Test
  void handThatIsAtItIsWaitedForForTwentyMinutes() {
    assertEquals(12, shows(shows(TOLD, 10, 480), 20, 312).offG());
  }

  @Test
  void withoutAWordNoStepIsACovers() {
    assertSame(Cover.FROM_THE_START, shows(Cover.FROM_THE_START, 5, 312));
  }

  /** Of 12 g so much is left where the word was to take it off. */
  @ParameterizedTest(name = "{0} g: {1} g are left")
  @CsvSource({"303, 3", "302.5, 0"})
  void lessThanThreeGramsThatAreLeftAreNothing(double readG, double offG) {
    Cover off = shows(TOLD, 5, 312).told(false, after(600));
    assertEquals(12, off.offG(), "as long as its scale shows it");
    assertEquals(offG, shows(off, 605, readG).offG());
  }

  @Test
  void coverThatIsOffForItsHourIsTakenOffForGoodByTheWord() {
    Cover lifted = shows(shows(TOLD, 5, 320), 600, 300);
    assertEquals(20, lifted.massG());
    assertEquals(0, lifted.told(false, after(601)).massG());
  }

  @ParameterizedTest(name = "{0} g: back {1}")
  @CsvSource({"329.5, true", "330, false"})
  void halfAsMuchAgainIsAnotherLoad(double readG, boolean back) {
    Cover lifted = shows(shows(TOLD, 5, 320), 600, 300);
    assertEquals(back, shows(lifted, 660, readG).rests());
  }

  @Test
  void fileThatIsEditedIsTheWordAndLeavesItsMass() {
    Cover edited = shows(TOLD, 5, 312).byFile(false);
    assertFalse(edited.on());
    assertNull(edited.toldAt());
    assertEquals(12, edited.offG());
    assertTrue(Cover.NONE.byFile(true).on());
  }

  @Test
  void stepOfNothingExplainsNothing() {
    Cover.Step none = new Cover.Step(after(0), 0, null);
    assertNull(Cover.NONE.stepped(none).explains(true, after(1)));
    assertNull(Cover.FROM_THE_START.stepped(none).explains(false, after(1)));
  }
}
