package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.StageLines;
import java.time.Instant;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Lines of a cup, and what a refill between them may take. */
class CupLinesTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");

  @ParameterizedTest(name = "wet {0}, refill {1}, due {2}, dry {3}")
  @CsvSource({
    "0.10, 0.05, 0.50, 0.75",
    "-0.20, 0.50, 0.50, 0.75",
    "-0.20, 0.60, 0.50, 0.75",
    "-0.20, 0.05, 0.75, 0.75",
    "-0.20, 0.05, 0.80, 0.75",
    "NaN, 0.05, 0.50, 0.75",
    "-0.20, NaN, 0.50, 0.75",
    "-0.20, 0.05, NaN, 0.75",
    "-0.20, 0.05, 0.50, NaN"
  })
  void brokenOrderIsRefusedWithAllFour(double wet, double refill, double due, double dry) {
    IllegalArgumentException refused =
        assertThrows(IllegalArgumentException.class, () -> new CupLines(wet, refill, due, dry));
    assertEquals(
        "lines must keep wet <= refill < due < dry, but wet is "
            + "%.3f, refill %.3f, due %.3f, dry %.3f".formatted(wet, refill, due, dry),
        refused.getMessage());
  }

  @Test
  void wateringEndsAtTheWetLineWhereTheMixLacksAir() {
    assertEquals(0.05, new CupLines(0.05, 0.05, 0.5, 0.75).refill());
    StageLines lines = new StageLines(0.5, 0.05, 0.75);
    assertEquals(new CupLines(-0.2, 0.05, 0.5, 0.75), CupLines.of(-0.2, lines));
    assertEquals(new CupLines(0.2, 0.2, 0.5, 0.75), CupLines.of(0.2, lines));
    assertThrows(IllegalArgumentException.class, () -> CupLines.of(0.5, lines));
  }

  /** Rooted: nearly dry two to three days after a watering in sun (common practice). */
  @ParameterizedTest(name = "{0}: {1} d, {2} g/h")
  @CsvSource({
    "STRUCK, 10, 0.375",
    "WHITE, 7, 0.535714286",
    "TOUGHENED, 4, 0.9375",
    "CIRCLING, 2.5, 1.5"
  })
  void predictedUseFromRefillToDue(RootStage stage, double days, double gPerH) {
    assertEquals(days, PredictedUse.days(stage));
    CupLines lines = new CupLines(-0.2, 0.05, 0.5, 0.75);
    assertEquals(gPerH, PredictedUse.rateGPerH(stage, lines, 200.0), 1e-9);
  }

  @Test
  void refillTakesTheLesserOfItsBudgetAndWhatMayGoUnseen() {
    Refill refill = Refill.byHand(Cause.ORDER, AT, 90.0, 0.25, Set.of("cold"), "a");
    assertEquals(90.0, refill.leftMl());
    assertFalse(refill.halved());
    Refill halved = refill.halfUntilSeen(45.0).plus(30.0);
    assertTrue(halved.halved());
    assertEquals(15.0, halved.leftMl(), 1e-12);
    assertEquals(60.0, halved.whole().leftMl(), 1e-12);
    assertEquals(-10.0, halved.within(20.0).leftMl(), 1e-12);
    assertEquals(
        new Refill(Cause.ORDER, AT, 90.0, 45.0, 30.0, 0.25, Set.of("cold"), "a", false), halved);
    assertTrue(halved.amongMany().toMany());
    assertEquals(15.0, halved.amongMany().leftMl(), 1e-12);
  }

  @Test
  void halfADayMoreOfRisesIsBelievedFromTheSecondPassOn() {
    assertFalse(Rises.NONE.plus(0.5).known());
    Rises two = Rises.NONE.plus(0.5).plus(0.9);
    assertTrue(two.known());
    assertEquals(0.7, two.part(), 1e-12);
    assertEquals(0.8, two.plus(1.0).part(), 1e-12, "a third of the way");
  }
}
