package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A1 in the place of A2; half an hour apart is together, two looks that fit are enough. */
class MisplacedTest {
  private static Misplaced a1() {
    return Misplaced.of("A2", Cups.START, 320);
  }

  private static Instant after(long minutes) {
    return Cups.START.plusSeconds(60 * minutes);
  }

  @Test
  void standsInTheOthersPlaceUntilItIsBack() {
    assertFalse(Misplaced.NONE.on());
    assertTrue(a1().on());
    assertTrue(a1().inPlaceOf("A2"));
    assertFalse(a1().inPlaceOf("A3"));
    Misplaced back = a1().back(after(60));
    assertFalse(back.on());
    assertFalse(back.inPlaceOf("A2"));
    assertFalse(back.handled());
  }

  @ParameterizedTest(name = "{0} min after it came back: {1}")
  @CsvSource({"60, true", "90, true", "91, false"})
  void justBack(long minutes, boolean just) {
    Misplaced back = a1().back(after(60));
    assertEquals(just, back.justBackFrom("A2", after(minutes)));
    assertFalse(back.justBackFrom("A3", after(minutes)));
    assertFalse(a1().stepped(after(60)).justBackFrom("A2", after(minutes)), "still there");
  }

  @ParameterizedTest(name = "handled at {0} and {1} min: together {2}")
  @CsvSource({"60, 60, true", "60, 90, true", "90, 60, true", "60, 91, false", "91, 60, false"})
  void handledTogether(long one, long other, boolean together) {
    Misplaced a2 = Misplaced.of("A1", Cups.START, 290).stepped(after(other));
    assertEquals(together, a1().stepped(after(one)).handledWith(a2));
    assertFalse(a1().handledWith(a2));
    assertFalse(a1().stepped(after(one)).handledWith(Misplaced.of("A1", Cups.START, 290)));
  }

  @Test
  void fitsWellAfterTwoLooksRunning() {
    Misplaced once = a1().stepped(after(60)).looked(true);
    assertTrue(once.handled());
    assertFalse(once.fitsWell());
    assertTrue(once.looked(true).fitsWell());
    assertFalse(once.looked(false).looked(true).fitsWell());
    assertFalse(once.looked(true).stepped(after(70)).fitsWell(), "handled anew");
    assertEquals(320, once.ownG());
  }
}
