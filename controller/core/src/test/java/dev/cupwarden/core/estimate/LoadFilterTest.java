package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.time.Instant;
import org.junit.jupiter.api.Test;

/** The textbook equations on round numbers, by hand. */
class LoadFilterTest {
  private static final double EXACT = 1e-9;

  private static LoadFilter filter(double rateGPerH) {
    return new LoadFilter(Cups.START, 400, rateGPerH, 0.05, 1, 0.5, 0.25, 0.25, 0.125, 0.0625);
  }

  private static Instant after(double hours) {
    return Cups.START.plusSeconds(Math.round(3600 * hours));
  }

  @Test
  void firstWeightWithAGuessedRate() {
    assertEquals(
        new LoadFilter(Cups.START, 400, 1.5, 0, 0.04, 0, 0, 2.25, 0, 0.05 * 0.05),
        LoadFilter.begin(Cups.START, 400, 0.04, 1.5));
  }

  /** The rate wanders by 0.12 x 2 g/h in an hour: q = 0.0576. */
  @Test
  void anHourOn() {
    LoadFilter hour = filter(2).predict(after(1));
    assertEquals(after(1), hour.at());
    assertEquals(398, hour.massG(), EXACT);
    assertEquals(2, hour.rateGPerH());
    // 1 - 2 x 0.5 + 0.25 + q / 3 + 0.0001.
    assertEquals(0.2693, hour.varM(), EXACT);
    // 0.5 - 0.25 - q / 2.
    assertEquals(0.2212, hour.covMR(), EXACT);
    assertEquals(0.125, hour.covMK(), EXACT);
    assertEquals(0.3076, hour.varR(), EXACT);
    assertEquals(0.125, hour.covRK());
    assertEquals(0.0625, hour.varK());
    LoadFilter now = filter(2);
    assertSame(now, now.predict(Cups.START));
  }

  /** Of nine hours six are remembered: q x 36 x (9 - 4), q x 18 and q x 6. */
  @Test
  void rateDoesNotWanderOffWithoutEnd() {
    LoadFilter later = filter(2).predict(after(9));
    assertEquals(382, later.massG(), EXACT);
    assertEquals(12.25 + 10.368 + 0.0009, later.varM(), EXACT);
    assertEquals(0.5 - 2.25 - 1.0368, later.covMR(), EXACT);
    assertEquals(0.5956, later.varR(), EXACT);
  }

  @Test
  void slowRateWandersByTwoHundredthsAtLeast() {
    assertEquals(0.2504, filter(0.1).predict(after(1)).varR(), EXACT);
    assertEquals(0.3076, filter(-2).predict(after(1)).varR(), EXACT);
  }

  /** 4 °C warm: 400.2 g are expected, with 1 + 2 x 4 x 0.25 + 16 x 0.0625 + 0.5 = 4.5 g². */
  @Test
  void readingThatIsTwoGramsMore() {
    assertEquals(400.2, filter(2).expectedG(4), EXACT);
    assertEquals(4.5, filter(2).readingVar(4, 0.5), EXACT);
    LoadFilter read = filter(2).update(2, 4, 0.5);
    // Pulls on mass, rate and coefficient: 2, 1 and 0.5 of 4.5.
    assertEquals(400 + 4 / 4.5, read.massG(), EXACT);
    assertEquals(2 + 2 / 4.5, read.rateGPerH(), EXACT);
    assertEquals(1 - 4 / 4.5, read.varM(), EXACT);
    assertEquals(0.5 - 2 / 4.5, read.covMR(), EXACT);
    assertEquals(0.25 - 1 / 4.5, read.covMK(), EXACT);
    assertEquals(0.25 - 1 / 4.5, read.varR(), EXACT);
    assertEquals(0.125 - 0.5 / 4.5, read.covRK(), EXACT);
    assertEquals(0.0625 - 0.25 / 4.5, read.varK(), EXACT);
  }

  /** No cell of this size drifts by more than 0.15 g/°C. */
  @Test
  void coefficientIsLearnedWithinItsBounds() {
    assertEquals(0.05 + 0.25 / 4.5, filter(2).update(0.5, 4, 0.5).gPerC(), EXACT);
    assertEquals(0.15, filter(2).update(2, 4, 0.5).gPerC());
    assertEquals(-0.15, filter(2).update(-4, 4, 0.5).gPerC());
  }

  /** Twice the rate, unsure by 0.4 ln 2 x 2 x 2 g/h. */
  @Test
  void rateInOtherLightAndAir() {
    LoadFilter other = filter(2).changeRate(2);
    double unsure = 1.6 * Math.log(2);
    assertEquals(
        new LoadFilter(Cups.START, 400, 4, 0.05, 1, 1, 0.25, 1 + unsure * unsure, 0.25, 0.0625),
        other);
  }

  /** 0.5 g/h over two hours: 4 x 0.25 g², 2 x 0.25 and 0.25. */
  @Test
  void rateInDoubt() {
    assertEquals(
        new LoadFilter(Cups.START, 400, 2, 0.05, 2, 0, 0.25, 0.5, 0.125, 0.0625),
        filter(2).doubtRate(0.5, 2));
  }

  @Test
  void otherMassOrOtherRateLeavesWhatWasLearnedOtherwise() {
    assertEquals(
        new LoadFilter(Cups.START, 430, 2, 0.05, 0.04, 0, 0, 0.25, 0.125, 0.0625),
        filter(2).jumpTo(430, 0.04));
    assertEquals(
        new LoadFilter(Cups.START, 400, 3, 0.05, 1, 0, 0.25, 0.1, 0, 0.0625),
        filter(2).withRate(3, 0.1));
    assertEquals(
        new LoadFilter(Cups.START, 400, 2, 0.05, 1, 0.5, 0, 0.25, 0, 0.0625),
        filter(2).apartFromWarmth());
  }
}
