package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.estimate.SwapDetector.Found;
import dev.cupwarden.core.estimate.SwapDetector.Step;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

class SwapDetectorTest {
  private static final Instant NOW = Cups.START;

  @Test
  void twoCupsThatWeighWhatTheOtherShouldHaveChangedPlaces() {
    Found found = look(step("A1", 320, 290.3), step("A2", 290, 319.6));
    assertEquals("A1", found.swaps().get(0).one().cup());
    assertEquals("A2", found.swaps().get(0).other().cup());
    assertEquals(1, found.swaps().size());
    assertTrue(found.recent().isEmpty());
  }

  @Test
  void counterpartMayShowUpTicksLater() {
    Found first = look(step("A1", 320, 290.3));
    assertTrue(first.swaps().isEmpty());
    Instant later = NOW.plus(Duration.ofMinutes(10));
    Found second =
        SwapDetector.look(first.recent(), List.of(new Step("A2", later, 290, 319.6)), later);
    assertEquals(1, second.swaps().size());
  }

  @Test
  void stepIsForgottenAfterHalfAnHour() {
    Found first = look(step("A1", 320, 290.3));
    Instant later = NOW.plus(Duration.ofMinutes(31));
    Found second =
        SwapDetector.look(first.recent(), List.of(new Step("A2", later, 290, 319.6)), later);
    assertTrue(second.swaps().isEmpty());
  }

  @Test
  void stepOfHalfAnHourAgoStillCounts() {
    Found first = look(step("A1", 320, 290.3));
    Instant later = NOW.plus(Duration.ofMinutes(30));
    Found second =
        SwapDetector.look(first.recent(), List.of(new Step("A2", later, 290, 319.6)), later);
    assertEquals(1, second.swaps().size());
    assertEquals(Found.NOTHING, SwapDetector.look(List.of(), List.of(), later));
    assertEquals(1, SwapDetector.look(first.recent(), List.of(), later).recent().size());
  }

  /**
   * Zeros that are 8 g apart: A1 seems to gain what A2 seems to lose. At most 25 g, a quarter of
   * what tells the cups apart, and their sum to 1.5 g.
   */
  @Test
  void scalesThatWereKnockedShowASwapAllTheSame() {
    assertEquals(1, look(step("A1", 280, 208), step("A2", 200, 272)).swaps().size());
    assertEquals(1, look(step("A1", 280, 192), step("A2", 200, 288)).swaps().size());
    assertEquals(1, look(step("A1", 280, 220), step("A2", 200, 260)).swaps().size(), "80 g / 4");
    assertEquals(0, look(step("A1", 280, 220.1), step("A2", 200, 259.9)).swaps().size());
    assertEquals(1, look(step("A1", 280, 215), step("A2", 200, 266.4)).swaps().size());
    assertEquals(0, look(step("A1", 280, 215), step("A2", 200, 266.6)).swaps().size());
    assertEquals(1, look(step("A1", 240, 210), step("A2", 200, 230)).swaps().size(), "40 g / 4");
    assertEquals(0, look(step("A1", 240, 210.1), step("A2", 200, 229.9)).swaps().size());
    assertEquals(1, look(step("A1", 400, 225), step("A2", 200, 375)).swaps().size(), "25 g");
    assertEquals(0, look(step("A1", 400, 225.1), step("A2", 200, 374.9)).swaps().size());
  }

  /** A dome taken off one: at most 15 g, and a tenth of what tells the cups apart. */
  @Test
  void whatWasPutOnOrTakenOffWithTheExchangeHidesNoSwap() {
    assertEquals(1, look(step("A1", 307.2, 181.1), step("A2", 177.4, 295.5)).swaps().size());
    assertEquals(1, look(step("A1", 280, 208), step("A2", 200, 288)).swaps().size(), "80 g / 10");
    assertEquals(0, look(step("A1", 280, 208.1), step("A2", 200, 288)).swaps().size());
    assertEquals(1, look(step("A1", 400, 215), step("A2", 200, 400)).swaps().size(), "15 g");
    assertEquals(0, look(step("A1", 400, 215.1), step("A2", 200, 400)).swaps().size());
  }

  /**
   * Cups of 4 g difference at least; 1.5 g, or half a hundredth of the heavier, of disagreement
   * between cups that are little apart.
   */
  @Test
  void justASwapAndJustNone() {
    assertEquals(1, look(step("A1", 204, 200), step("A2", 200, 204)).swaps().size());
    assertEquals(0, look(step("A1", 203.9, 200), step("A2", 200, 203.9)).swaps().size());
    assertEquals(1, look(step("A1", 210, 201.5), step("A2", 200, 210)).swaps().size());
    assertEquals(0, look(step("A1", 210, 201.6), step("A2", 200, 210)).swaps().size());
    assertEquals(1, look(step("A1", 210, 200), step("A2", 200, 208.5)).swaps().size());
    assertEquals(0, look(step("A1", 210, 200), step("A2", 200, 208.4)).swaps().size());
    assertEquals(1, look(step("A1", 510, 502.5), step("A2", 500, 510)).swaps().size());
    assertEquals(0, look(step("A1", 510, 502.6), step("A2", 500, 510)).swaps().size());
  }

  /**
   * Of cups 8 g apart both off by 1.5 g; of cups 100 g apart by a tenth of that, something put
   * under both; of cups 80 g apart zeros 20 g apart, a quarter, or whose sum is off by 1.5 g.
   */
  @Test
  void scalesThatDisagreeByAsMuchAsTheyMay() {
    assertEquals(1, look(step("A1", 208, 201.5), step("A2", 200, 209.5)).swaps().size());
    assertEquals(1, look(step("A1", 300, 210), step("A2", 200, 310)).swaps().size());
    assertEquals(0, look(step("A1", 300, 210.1), step("A2", 200, 310)).swaps().size());
    assertEquals(1, look(step("A1", 280, 220), step("A2", 200, 260)).swaps().size());
    assertEquals(1, look(step("A1", 280, 218), step("A2", 200, 263.5)).swaps().size());
  }

  @Test
  void oneCupIsNoSwapWithItself() {
    assertEquals(0, look(step("A1", 320, 290), step("A1", 290, 320)).swaps().size());
  }

  @Test
  void nothingHappenedIsNoStep() {
    assertEquals(List.of(), SwapDetector.steps("A1", List.of()));
    assertEquals(
        List.of(new Step("A1", NOW, 320, 290)),
        SwapDetector.steps("A1", List.of(new WeightEvent.Returned(NOW, 320, -30))));
    assertEquals(
        List.of(new Step("A1", NOW, 290, 320)),
        SwapDetector.steps("A1", List.of(new WeightEvent.HandWatering(NOW, 290, 30))));
  }

  @Test
  void twoWateringsAreNoSwap() {
    assertTrue(look(step("A1", 290, 320), step("A2", 320, 350)).swaps().isEmpty());
  }

  @Test
  void cupsThatWeighAboutTheSameCannotBeToldApart() {
    assertTrue(look(step("A1", 292, 290), step("A2", 290, 292)).swaps().isEmpty());
  }

  @Test
  void threeCupsMovedOnGiveTheBestPairOnly() {
    Found found = look(step("A1", 320, 290.9), step("A2", 290, 319.2), step("A3", 290.8, 320));
    assertEquals(1, found.swaps().size());
    assertEquals("A3", found.swaps().get(0).other().cup());
  }

  @Test
  void ofTwoPairsThatFitAlikeTheFirstNameIsTaken() {
    Found found = look(step("A2", 320, 290), step("A1", 320, 290), step("A3", 290, 320));
    assertEquals("A1", found.swaps().get(0).one().cup());
    assertEquals("A3", found.swaps().get(0).other().cup());
    assertEquals("A2", found.recent().get(0).cup());
  }

  @Test
  void eventsOfTwoScalesMakeTheSwapOut() {
    List<Step> one = SwapDetector.steps("A1", List.of(new WeightEvent.Returned(NOW, 320, -29.8)));
    List<Step> other =
        SwapDetector.steps("A2", List.of(new WeightEvent.HandWatering(NOW, 290, 29.5)));
    assertTrue(
        SwapDetector.steps("A3", List.of(new WeightEvent.OwnDose(NOW, 290, 30, 30))).isEmpty());
    assertEquals(1, look(one.get(0), other.get(0)).swaps().size());
  }

  @Test
  void cupsOfTwoKindsMakeTheSwapOutThoughOneScaleShowsNoWeightOfItsCup() {
    List<Step> tall = SwapDetector.steps("A1", List.of(new WeightEvent.Returned(NOW, 400, -190)));
    List<Step> small =
        SwapDetector.steps("A2", List.of(new WeightEvent.Exchanged(NOW, 210, 400.4)));
    assertEquals(1, look(tall.get(0), small.get(0)).swaps().size());
  }

  private static Step step(String cup, double beforeG, double afterG) {
    return new Step(cup, NOW, beforeG, afterG);
  }

  private static Found look(Step... steps) {
    return SwapDetector.look(List.of(), List.of(steps), NOW);
  }
}
