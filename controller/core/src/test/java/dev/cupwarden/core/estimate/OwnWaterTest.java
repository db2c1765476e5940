package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.time.Instant;
import org.junit.jupiter.api.Test;

/**
 * A cup of 300 g ± 2 g whose rate is known with a variance of 0.04 of itself, scatters by a tenth a
 * day and wanders by 0.01 a day: the textbook prediction of two states, by hand.
 */
class OwnWaterTest {
  private static final OwnWater.Trust TRUST = new OwnWater.Trust(0.04, 0.1, 0.01);
  private static final double EXACT = 1e-9;

  private static OwnWater cup() {
    return OwnWater.from(Cups.START, 300, 2, TRUST, 1.5);
  }

  private static Instant after(double hours) {
    return Cups.START.plusSeconds(Math.round(3600 * hours));
  }

  @Test
  void asLastWeighed() {
    assertEquals(new OwnWater(Cups.START, Cups.START, 300, 4, 0, 0.04, 0, 1.5, 0), cup());
    assertEquals(2, cup().sdG());
  }

  /** 24 g in a day: 4 + 24² x 0.04 + (24 x 0.1)² = 32.8; covariance 24 x 0.04; 0.04 + 0.01. */
  @Test
  void firstDay() {
    OwnWater day = cup().dried(after(24), 1.0, 100, TRUST);
    assertEquals(276, day.massG(), EXACT);
    assertEquals(32.8, day.varG2(), EXACT);
    assertEquals(0.96, day.covG(), EXACT);
    assertEquals(0.05, day.varShare(), EXACT);
    assertEquals(1.0, day.rateGPerH());
    assertEquals(after(24), day.at());
    assertEquals(Cups.START, day.since());
  }

  /** 12 g in half a day more: 2 x 12 x 0.96 + 12² x 0.05 + (12 x 0.1)² / 0.5 = 33.12. */
  @Test
  void halfADayMore() {
    OwnWater more = cup().dried(after(24), 1.0, 100, TRUST).dried(after(36), 1.0, 100, TRUST);
    assertEquals(32.8 + 33.12, more.varG2(), EXACT);
    assertEquals(0.96 + 0.6, more.covG(), EXACT);
    assertEquals(0.055, more.varShare(), EXACT);
  }

  @Test
  void neverBelowItsDryPartsNorUp() {
    assertEquals(290, cup().dried(after(24), 1.0, 290, TRUST).massG(), EXACT);
    assertEquals(300, cup().dried(after(24), -1.0, 100, TRUST).massG(), EXACT);
    OwnWater moment = cup().dried(Cups.START, 1.0, 100, TRUST);
    assertEquals(300, moment.massG());
    assertEquals(4, moment.varG2());
  }

  /** In a day a mean goes 1 - 1/e of the way. */
  @Test
  void benchsIndexFadesOverADay() {
    assertEquals(1.5 + 2 * (1 - 1 / Math.E), cup().under(3.5, after(24)).lately(), EXACT);
    OwnWater cup = cup();
    assertSame(cup, cup.under(0, after(24)));
    assertSame(cup, cup.under(Double.NaN, after(24)));
    assertEquals(0.3, cup.grown(0.1).grown(0.2).grownLog(), EXACT);
  }

  /** Far below capacity a pass of 40 mL adds 40 x 0.9 g and (0.05 x 40)² = 4 g². */
  @Test
  void passFarBelowCapacityIsAdded() {
    OwnWater given = cup().given(40, 0.9, 500);
    assertEquals(336, given.massG(), 1e-6);
    assertEquals(8, given.varG2(), 1e-6);
    assertEquals(280, cup().without(20).massG());
  }

  /**
   * Up to capacity itself: half of the normal curve is cut off. Mean 400 - s / sqrt(2 pi), variance
   * (s² + s² / 2 - s² / (2 pi)) / 2 and three quarters of the covariance, s² = 4 + 5² = 29.
   */
  @Test
  void passThatReachesCapacityRunsThroughInPart() {
    OwnWater given =
        new OwnWater(Cups.START, Cups.START, 300, 4, 0.8, 0.04, 1, 1.5, 0).given(100, 1, 400);
    assertEquals(400 - Math.sqrt(29 / (2 * Math.PI)), given.massG(), 1e-6);
    assertEquals((29 + 14.5 - 29 / (2 * Math.PI)) / 2, given.varG2(), 1e-6);
    assertEquals(0.6, given.covG(), 1e-6);
  }

  /**
   * One standard deviation below capacity, s = 5 g: of the normal curve 0.8413447 lie below 1, and
   * its density there is 0.2419707 (tables). Mean 400 - 5 (0.8413447 + 0.2419707), second moment
   * about capacity 50 x 0.8413447 + 25 x 0.2419707 = 48.1165.
   */
  @Test
  void passThatComesNearCapacityRunsThroughInPart() {
    OwnWater given =
        new OwnWater(Cups.START, Cups.START, 315, 9, 0.8, 0.04, 1, 1.5, 0).given(80, 1, 400);
    double belowG = 5 * (0.8413447 + 0.2419707);
    assertEquals(400 - belowG, given.massG(), 1e-5);
    assertEquals((25 + 48.1165 - belowG * belowG) / 2, given.varG2(), 1e-4);
    assertEquals(0.8 * 1.8413447 / 2, given.covG(), 1e-6);
  }

  /** Far beyond, what is left of it lies at capacity, and half of its own doubt stays. */
  @Test
  void passFarBeyondCapacityLeavesItFull() {
    OwnWater given = cup().given(200, 1, 400);
    assertEquals(400, given.massG(), 1e-3);
    assertEquals((4 + 100) / 2.0, given.varG2(), 1e-2);
  }
}
