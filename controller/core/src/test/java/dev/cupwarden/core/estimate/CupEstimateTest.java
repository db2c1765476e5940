package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is known of a cup, and whether it is to be believed. */
class CupEstimateTest {
  private static CupEstimate distrusted(DistrustCode code) {
    Optional<Distrust> reason = Optional.ofNullable(code).map(CupEstimateTest::reason);
    return new CupEstimate(true, 300, 1, 2, 1.5, 0.2, true, reason, false, Cups.START);
  }

  private static Distrust reason(DistrustCode code) {
    return new Distrust(code, 1, 2);
  }

  /** 86 g at 1.2 g/h: in ten hours 74 g, of which 78.559 are dry. */
  @Test
  void whatItWouldHaveLostBeyondAllItsWater() {
    Cups cup = new Cups();
    double massG = cup.dries(288, 86 + 28.8, 1.2);
    CupEstimate later = CupEstimate.at(cup.state, Cups.TALL, cup.now.plusSeconds(36_000));
    assertEquals(86, massG, 1e-9);
    assertEquals(78.559, later.massG());
    assertEquals(78.559 - 74, later.beyondDryG(), 0.5);
    assertEquals(0, cup.estimate().beyondDryG());
  }

  /** Within a third, or within 0.15 g/h: our choice. */
  @ParameterizedTest(name = "{0} g/h with a variance of {1}: known {2}")
  @CsvSource({
    "3, 0.999, true",
    "3, 1.0, false",
    "-3, 0.999, true",
    "0.3, 0.0224, true",
    "0.3, 0.0226, false"
  })
  void rateThatIsKnown(double rate, double varR, boolean known) {
    LoadFilter filter = new LoadFilter(Cups.START, 300, rate, 0, 0.04, 0, 0, varR, 0, 0.0025);
    assertEquals(known, CupEstimate.rateKnown(filter));
  }

  @Test
  void cupWhoseScaleFallsByItselfIsReckonedInItsPlace() {
    CupEstimate drifts = distrusted(null).drifting(2.5, 1.5, 330, 27);
    assertEquals(330, drifts.massG());
    assertEquals(27, drifts.massSdG());
    assertEquals(1.5, drifts.rateGPerH());
    assertEquals(0.5, drifts.rateSdGPerH());
    assertEquals(
        new Distrust(DistrustCode.SCALE_DRIFTING, 2.5, 1.5), drifts.distrust().orElseThrow());
    assertTrue(drifts.drifts());
    assertFalse(drifts.trusted());
    CupEstimate silent = distrusted(DistrustCode.SCALE_SILENT).drifting(2.5, 1.5, 330, 27);
    assertTrue(silent.distrusted(DistrustCode.SCALE_SILENT), "said before");
    assertFalse(silent.drifts());
    assertFalse(distrusted(null).drifts());
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({
    ", CUPS_SWAPPED",
    "SETTLING, CUPS_SWAPPED",
    "SCALE_OUT_OF_RANGE, CUPS_SWAPPED",
    "SCALE_SILENT, SCALE_SILENT",
    "SCALE_NOISY, SCALE_NOISY"
  })
  void anothersWeightSaysNothingOfIt(DistrustCode code, DistrustCode told) {
    CupEstimate was = distrusted(code);
    CupEstimate anothers = was.anothers();
    assertEquals(told, anothers.distrust().orElseThrow().code());
    if (told == code) {
      assertSame(was, anothers);
    } else {
      assertEquals(300, anothers.massG());
    }
  }

  @ParameterizedTest(name = "{0}: unseen {1}")
  @CsvSource({", false", "SETTLING, false", "SCALE_SILENT, true", "CUPS_SWAPPED, true"})
  void unseenUnlessItMerelySettles(DistrustCode code, boolean unseen) {
    assertEquals(unseen, distrusted(code).unseen());
    CupEstimate lifted =
        new CupEstimate(
            true,
            300,
            0,
            2,
            1.5,
            0.2,
            true,
            Optional.of(reason(DistrustCode.SETTLING)),
            true,
            Cups.START);
    assertTrue(lifted.unseen());
  }

  /** With a variance of 0.04 of its share: a fifth of 1.5 g/h. */
  @Test
  void waterThatIsReckonedTakesTheWeightsPlace() {
    OwnWater water = new OwnWater(Cups.START, Cups.START, 280, 9, 0, 0.04, 1.5, 1, 0);
    CupEstimate reckoned =
        distrusted(DistrustCode.SCALE_SILENT)
            .reckoned(Reckoning.NONE.with(water), DryingUse.NONE, Cups.TALL);
    assertEquals(280, reckoned.massG());
    assertEquals(3, reckoned.massSdG());
    assertEquals(1.5, reckoned.rateGPerH());
    assertEquals(0.3, reckoned.rateSdGPerH(), 1e-12);
    assertFalse(reckoned.rateKnown(), "neither share nor use is known");
    DryingUse used = new DryingUse(5, 5, 0, 0);
    assertTrue(
        distrusted(DistrustCode.SCALE_SILENT)
            .reckoned(Reckoning.NONE.with(water), used, Cups.TALL)
            .rateKnown());
    OwnWater below = new OwnWater(Cups.START, Cups.START, 50, 9, 0, 0.04, 1.5, 1, 0);
    assertEquals(
        78.559,
        distrusted(DistrustCode.SCALE_SILENT)
            .reckoned(Reckoning.NONE.with(below), DryingUse.NONE, Cups.TALL)
            .massG(),
        "never below its dry parts");
  }
}
