package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Water of 0.3 mS/cm and a feed of 1.5 g/L at 1.2 mS/cm a gram, worked out by hand. */
class SaltBalanceTest {
  private static final double EXACT = 1e-9;
  private static final double WATER = 0.3;
  private static final Feed LEAFY = feed(20);

  /** 100 mL at half strength: 120 mS/cm x mL, of which 90 came with feed. */
  private static SaltBalance fed() {
    return SaltBalance.NONE.plus(100, 1.2, WATER);
  }

  private static Feed feed(double nPct) {
    return new Feed("feed", nPct, 10, 20, 1.5, Duration.ofDays(14), 5.0, 1.2);
  }

  private static void assertSalts(double msMl, double feedMsMl, SaltBalance salts) {
    assertEquals(msMl, salts.msMl(), EXACT, "all");
    assertEquals(feedMsMl, salts.feedMsMl(), EXACT, "of feed");
  }

  @ParameterizedTest(name = "strength {0}: {1} mS/cm")
  @CsvSource({"0, 0.3", "0.25, 0.75", "0.5, 1.2", "1, 2.1"})
  void conductivityOfAFedPass(double strength, double msPerCm) {
    assertEquals(msPerCm, SaltBalance.ecMsPerCm(WATER, LEAFY, strength), EXACT);
    assertEquals(WATER, SaltBalance.ecMsPerCm(WATER, null, strength), "plain water");
  }

  /** In proportion between 1.0 and 2.6 mS/cm, where the low band of a pour-through lies. */
  @ParameterizedTest(name = "{0} mS/cm: {1} of the feed")
  @CsvSource({"0.3, 1", "1.0, 1", "1.4, 0.75", "1.8, 0.5", "2.2, 0.25", "2.6, 0", "4.0, 0"})
  void feedIsThinnedInASaltyMix(double msPerCm, double part) {
    assertEquals(part, SaltBalance.feedPart(msPerCm), EXACT);
  }

  /** 100 mL at half strength are the feed of 50 mL at the label's. */
  @Test
  void feedThatIsLeftInMlAtTheLabelsStrength() {
    assertEquals(50, fed().labelMl(LEAFY), EXACT);
    Feed untold = new Feed("untold", 20, 10, 20, 1.5, Duration.ofDays(14), 5.0, 0.0);
    assertEquals(0, fed().labelMl(untold), "no conductivity tells of it");
  }

  @Test
  void whatWentInIsCounted() {
    assertSalts(120, 90, fed());
    assertSalts(135, 90, fed().plus(50, WATER, WATER));
    assertSalts(125, 90, fed().plus(50, 0.1, WATER));
    assertSalts(180, 135, fed().plus(50, 1.2, WATER));
  }

  /** 200 mL of tap water: its own salts, and none of feed. */
  @Test
  void freshMixHoldsTheSaltsOfItsWater() {
    assertSalts(60, 0, SaltBalance.wetted(200, WATER));
  }

  @Test
  void whatWasNotGivenAfterAllIsTakenBack() {
    assertSalts(72, 54, fed().minus(40, 1.2, WATER));
    assertSalts(108, 90, fed().minus(40, WATER, WATER));
    assertSalts(116, 90, fed().minus(40, 0.1, WATER));
    // 360 and 270 taken back leave nothing, and never less than what came with feed.
    assertSalts(0, 0, fed().minus(300, 1.2, WATER));
    assertSalts(90, 90, fed().minus(300, WATER, WATER));
  }

  /**
   * 100 mg/L N of a feed of 200 mg/g are 0.5 g/L, 0.6 mS/cm, of what goes through the leaves, and
   * 0.2 mS/cm of the water's own salts go with them.
   */
  @ParameterizedTest(name = "{0}: {1} mS/cm x mL of 100 mL")
  @CsvSource({"WHITE, 12", "TOUGHENED, 21", "CIRCLING, 33"})
  void plantTakesFeedWithTheWaterThatGoesThroughItsLeaves(RootStage stage, double taken) {
    assertSalts(
        120 - taken * 0.8 / 0.6, 90 - taken, fed().used(100, LeafShare.usual(stage), LEAFY));
  }

  @Test
  void plantTakesNoMoreThanCameWithFeed() {
    assertSalts(0, 0, fed().used(10_000, 0.55, LEAFY));
  }

  @Test
  void nothingIsTakenWithoutRootsFeedNitrogenOrLoss() {
    SaltBalance fed = fed();
    assertSame(fed, fed.used(100, 0.0, LEAFY));
    assertSame(fed, fed.used(100, 0.2, null));
    assertSame(fed, fed.used(100, 0.2, feed(0)), "salts of no nitrogen stay");
    assertSame(fed, fed.used(0, 0.2, LEAFY));
    assertSame(fed, fed.used(-5, 0.2, LEAFY), "water that came is no loss");
    SaltBalance watersOwn = SaltBalance.NONE.plus(100, WATER, WATER);
    assertSame(watersOwn, watersOwn.used(100, 0.2, LEAFY));
  }

  /** A quarter of 200 mL takes a quarter of the salts along. */
  @Test
  void drainageTakesItsPartAlong() {
    assertSalts(90, 67.5, fed().drained(50, 200));
    assertSalts(0, 0, fed().drained(200, 200));
    assertSalts(0, 0, fed().drained(250, 200));
    assertSalts(120, 90, fed().drained(0, 200));
  }

  @Test
  void conductivityAtCapacity() {
    assertEquals(0.6, fed().atCapacityMsPerCm(200), EXACT);
  }
}
