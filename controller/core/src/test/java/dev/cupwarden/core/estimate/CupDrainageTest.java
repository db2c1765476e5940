package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;

/** A cup of 400 g at capacity with 250 mL to take, filled to 420 g; all bounds are our choice. */
class CupDrainageTest {
  private static final WeightFrame FRAME = new WeightFrame(100, 400, 500, 250);

  private static Instant after(double hours) {
    return Cups.START.plusSeconds(Math.round(3600 * hours));
  }

  private static Drainage filled() {
    return Drainage.begin(Cups.START, 420, FRAME);
  }

  /** A fifth of 250 mL below capacity is 350 g. */
  @Test
  void beginsNearCapacity() {
    assertEquals(
        new Drainage(Cups.START, 350.1, 350.1, Cups.START, 0, false),
        Drainage.begin(Cups.START, 350.1, FRAME));
    assertNull(Drainage.begin(Cups.START, 350, FRAME));
  }

  @Test
  void marksEachHalfHourAndEndsAfterTwo() {
    assertFalse(filled().due(after(0.5).minusSeconds(1)));
    assertTrue(filled().due(after(0.5)));
    assertFalse(filled().tooLong(after(2)));
    assertTrue(filled().tooLong(after(2).plusSeconds(1)));
  }

  /** Of 2 g/h half an hour is 1 g, and half a gram more is rest. */
  @Test
  void restsWhereItOnlyDries() {
    assertTrue(filled().atRest(after(0.5), 418.5, 2));
    assertFalse(filled().atRest(after(0.5), 418.4, 2));
    assertTrue(filled().atRest(after(0.5), 419.5, -2), "a rate below nothing is none");
    assertFalse(filled().atRest(after(0.5), 419.4, -2));
  }

  @Test
  void drainedIsThreeGramsBesidesDrying() {
    assertTrue(filled().drained(after(1), 415, 2));
    assertFalse(filled().drained(after(1), 415.1, 2));
    assertTrue(filled().drained(after(2), 413, 2));
    assertFalse(filled().drained(after(2), 413.1, 2));
    assertTrue(filled().drained(after(1), 417, -2));
    Drainage uneven = new Drainage(Cups.START, 420, 420, Cups.START, 0, true);
    assertFalse(uneven.drained(after(1), 410, 2));
  }

  /** 9 g besides 1 g of drying in the first half hour; 4.5 g at most in the next. */
  @Test
  void drainsByHalfAsMuchEachHalfHour() {
    Drainage first = filled().marked(after(0.5), 410, 2);
    assertEquals(new Drainage(Cups.START, 420, 410, after(0.5), 9, false), first);
    Drainage slows = first.marked(after(1), 404.5, 2);
    assertEquals(4.5, slows.fellG(), 1e-12);
    assertFalse(slows.uneven());
    Drainage runs = first.marked(after(1), 404.4, 2);
    assertTrue(runs.uneven());
    assertTrue(runs.marked(after(1.5), 404, 0).uneven(), "once uneven, always");
  }
}
