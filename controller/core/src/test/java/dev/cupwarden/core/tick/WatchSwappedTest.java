package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.Misplaced;
import dev.cupwarden.core.estimate.OwnWater;
import dev.cupwarden.core.estimate.WeightEvent;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Two cups that changed places, and what proves that they are back. */
class WatchSwappedTest {
  private static final Instant HALF_AN_HOUR_AGO = AT.minus(Duration.ofMinutes(30));

  private final DraftBench bench = new DraftBench();
  private final BenchDraft draft = bench.draft();
  private final CupDraft one = DraftBench.weighs(draft, "A1", 340.0);
  private final CupDraft other = DraftBench.weighs(draft, "A2", 200.0);

  private void changePlaces(double oneG, double otherG) {
    one.events = List.of(new WeightEvent.Returned(AT, oneG, otherG - oneG));
    other.events = List.of(new WeightEvent.Returned(AT, otherG, oneG - otherG));
    WatchSwapped.find(draft);
  }

  /** Cups closer than 4 g look alike. */
  @ParameterizedTest(name = "{0} g and {1} g: swapped {2}")
  @CsvSource({"340, 200, true", "204, 200, true", "203.9, 200, false"})
  void crosswiseStepsAreASwap(double oneG, double otherG, boolean swapped) {
    changePlaces(oneG, otherG);
    assertEquals(swapped, one.weight.misplaced().on());
    assertEquals(swapped, other.swapped());
    if (swapped) {
      assertEquals(new Latch(AlertCode.CUPS_SWAPPED, AT, oneG - otherG, 0.0), one.latch);
      assertEquals(Misplaced.of("A2", AT, oneG), one.weight.misplaced());
      assertEquals(Misplaced.of("A1", AT, otherG), other.weight.misplaced());
      assertEquals(AT, one.weight.distrustedSince());
      assertTrue(draft.steps.isEmpty(), "both steps are used up");
    }
  }

  @Test
  void oneStepAloneWaitsForItsCounterpart() {
    one.events = List.of(new WeightEvent.Returned(AT, 340.0, -140.0));
    WatchSwapped.find(draft);
    assertFalse(one.swapped());
    assertEquals(1, draft.steps.size());
  }

  /** Nothing was kept of whose place it was: the opposite exchange ends it. */
  @Test
  void latchOfAnOlderProgramEndsWithTheWayBack() {
    one.latch = new Latch(AlertCode.CUPS_SWAPPED, HALF_AN_HOUR_AGO, 140.0, 0.0);
    other.latch = one.latch;
    changePlaces(200.0, 340.0);
    assertNull(one.latch);
    assertNull(other.latch);
  }

  /** Both stand in each other's places, were handled together, and show that now. */
  private void handledBoth(double oneShowsG, double otherShowsG, int fits) {
    misplaced(one, "A2", 340.0, oneShowsG, fits);
    misplaced(other, "A1", 200.0, otherShowsG, fits);
  }

  private void misplaced(CupDraft cup, String partner, double ownG, double showsG, int fits) {
    cup.weight =
        cup.weight.with(new Misplaced(partner, AT.minus(Duration.ofHours(3)), ownG, AT, fits));
    cup.latch = new Latch(AlertCode.CUPS_SWAPPED, HALF_AN_HOUR_AGO, 140.0, 0.0);
    cup.reckonFrom(new OwnWater(HALF_AN_HOUR_AGO, AT, ownG, 4.0, 0.0, 0.04, 1.0, 1.0, 0.0));
    DraftBench.shows(cup, showsG);
  }

  /**
   * Within two standard deviations of 2 g, or 0.02 x 271.754 = 5.435 g of A1, by two looks running.
   */
  @ParameterizedTest(name = "shows {0} g of 340 g, {1} fits before: back {2}")
  @CsvSource({
    "340, 1, true",
    "345.4, 1, true",
    "345.5, 1, false",
    "334.6, 1, true",
    "334.5, 1, false",
    "340, 0, false"
  })
  void bothAreBackOnceTheirScalesShowThem(double showsG, int fits, boolean back) {
    handledBoth(showsG, 200.0, fits);
    WatchSwapped.look(draft);
    assertEquals(back, !one.weight.misplaced().on());
    assertEquals(back, one.latch == null);
    assertEquals(back, other.latch == null);
  }

  @Test
  void oneBackAloneIsNone() {
    handledBoth(340.0, 330.0, 1);
    WatchSwapped.look(draft);
    assertTrue(one.weight.misplaced().on());
    assertEquals(2, one.weight.misplaced().fits());
    assertEquals(0, other.weight.misplaced().fits());
  }

  @Test
  void oneWhosePartnerIsAwayIsJudgedByItself() {
    handledBoth(340.0, 330.0, 1);
    other.presence = other.presence.takenAway(HALF_AN_HOUR_AGO);
    WatchSwapped.look(draft);
    assertFalse(one.weight.misplaced().on());
  }

  /** Their steps are more than half an hour apart: not put back as they were exchanged. */
  @Test
  void whatWasNotHandledTogetherProvesNothing() {
    handledBoth(340.0, 200.0, 1);
    Instant before = HALF_AN_HOUR_AGO.minusSeconds(1);
    other.weight = other.weight.with(new Misplaced("A1", before, 200.0, before, 1));
    WatchSwapped.look(draft);
    assertTrue(one.weight.misplaced().on());
    assertEquals(0, one.weight.misplaced().fits());
  }

  @Test
  void whatStandsThereIsNotTheCup() {
    changePlaces(340.0, 200.0);
    one.seeNow(AT);
    assertFalse(one.now.trusted());
    assertTrue(one.now.distrusted(DistrustCode.NEVER_READ), "nothing was ever read of it here");
  }
}
