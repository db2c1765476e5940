package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A mark of 400 g; two readings agree within 0.5 g, or 3 sqrt(2) of their noise: our choice. */
class RestTest {
  private static final Rest MARK = new Rest(400, Cups.START);

  private static Instant after(double minutes) {
    return Cups.START.plusSeconds(Math.round(60 * minutes));
  }

  @ParameterizedTest(name = "{0} min later {1} g, {2} g/h, sd {3} g: {4}")
  @CsvSource({
    "4, 399.5, 0, 0.01, true",
    "4, 399.4, 0, 0.01, false",
    "4, 400.5, 0, 0.01, true",
    "4, 400.6, 0, 0.01, false",
    "3.9, 400, 0, 0.01, false",
    "30, 400, 0, 0.01, true",
    "30.1, 400, 0, 0.01, false",
    // 6 g/h for 20 min are 2 g of drying.
    "20, 398, 6, 0.01, true",
    "20, 397.5, 6, 0.01, true",
    "20, 397.4, 6, 0.01, false",
    "20, 400, -6, 0.01, true",
    // 3 sqrt(2) x 1 g = 4.243 g.
    "4, 395.8, 0, 1.0, true",
    "4, 395.7, 0, 1.0, false"
  })
  void readingThatBearsTheMarkOut(
      double minutes, double readG, double rate, double sdG, boolean rest) {
    assertEquals(rest, MARK.at(after(minutes), readG, rate, sdG));
  }

  @Test
  void nothingBearsOutWhereNothingWasRead() {
    assertEquals(false, Rest.UNKNOWN.at(after(10), 400, 0, 0.01));
    assertSame(Rest.UNKNOWN, Rest.since(400, null));
    assertSame(Rest.UNKNOWN, Rest.since(Double.NaN, Cups.START));
    assertEquals(MARK, Rest.since(400, Cups.START));
  }

  @Test
  void markIsKeptWhileReadingsAgreeTooSoonAndElseMovesOn() {
    assertSame(MARK, MARK.next(after(3.9), 399.8, 0, 0.01));
    assertEquals(new Rest(399.8, after(4)), MARK.next(after(4), 399.8, 0, 0.01));
    assertEquals(new Rest(398, after(2)), MARK.next(after(2), 398, 0, 0.01));
    assertEquals(new Rest(398, after(2)), Rest.UNKNOWN.next(after(2), 398, 0, 0.01));
  }
}
