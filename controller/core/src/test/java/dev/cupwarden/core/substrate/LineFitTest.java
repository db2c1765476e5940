package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Lines of least squares, by hand. */
class LineFitTest {
  private static final double EXACT = 1e-12;

  /** Means 1.5 and 7; squares 5, products -11, all 26: -2.2 a step, 26 - 2.2 x 11 left. */
  @Test
  void fourPoints() {
    LineFit line = LineFit.of(x -> x, new double[] {0, 1, 2, 3}, new double[] {10, 8, 7, 3});
    assertEquals(-2.2, line.slope(), EXACT);
    assertEquals(10.3, line.offset(), EXACT);
    assertEquals(1.8, line.rss(), EXACT);
  }

  @Test
  void overATransformedAbscissa() {
    LineFit line =
        LineFit.of(x -> 2 * x + 1, new double[] {0, 1, 2, 3}, new double[] {10, 8, 7, 3});
    assertEquals(-1.1, line.slope(), EXACT);
    assertEquals(11.4, line.offset(), EXACT);
    assertEquals(1.8, line.rss(), EXACT);
  }

  @Test
  void noSlopeWhereTheAbscissaStandsStill() {
    LineFit line = LineFit.of(x -> 1, new double[] {0, 1, 2, 3}, new double[] {10, 8, 7, 3});
    assertEquals(new LineFit(7, 0, 26), line);
  }
}
