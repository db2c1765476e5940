package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a cup lost and was given, worked out by hand; all figures are our choice. */
class WaterAccountTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  private static final UsualUse USUAL = new UsualUse(AT, 3, 1.5, 0.5, 0.0225, 0.0, 3.0, 100.0);

  private static WaterAccount full() {
    return WaterAccount.NONE.filled(AT, 10.0);
  }

  private static Instant after(double hours) {
    return AT.plusSeconds(Math.round(hours * 3600.0));
  }

  private static LossLog.Slot lost(double lostG, double foretoldG) {
    return new LossLog.Slot(AT, lostG, foretoldG, lostG, 1.0, 1.0, Double.NaN);
  }

  @Test
  void weightIsTakenInWithWhatWasLost() {
    WaterAccount seen = full().seen(after(1), 301.5, lost(2.0, 1.5));
    assertEquals(after(1), seen.seenAt());
    assertEquals(301.5, seen.seenG());
    assertEquals(2.0, seen.losses().open().lostG());
    assertEquals(2.0, seen.full().countedG());
    assertNull(WaterAccount.NONE.seen(after(1), 301.5, lost(2.0, 1.5)).full(), "never full");
  }

  /** A tool of 12 g that lay on the scale: 301.5 less 12. */
  @Test
  void stepThatWasNeverTheCupsOwnIsNoLoss() {
    WaterAccount seen = full().usual(USUAL).seen(after(1), 301.5, lost(2.0, 1.5));
    WaterAccount without = seen.without(12.0);
    assertEquals(289.5, without.seenG());
    assertEquals(seen, without.without(-12.0), "nothing else changes");
  }

  /** 1.5 g/h and kPa in 0.8 kPa for two hours are 2.4 g; twice as much in twice the light. */
  @Test
  void foretoldByTheCupsOwnDaysOrByWhatIsPredicted() {
    WaterAccount known = WaterAccount.NONE.usual(USUAL);
    assertEquals(2.4, known.foretoldG(2.0, 0.8, 9.9), 1e-12);
    assertEquals(4.8, known.more(2.0).foretoldG(2.0, 0.8, 9.9), 1e-12);
    assertEquals(3.0, WaterAccount.NONE.foretoldG(2.0, 0.8, 1.5), 1e-12);
  }

  @Test
  void pumpedAndPouredAreCountedApart() {
    SinceFull full = full().given(40.0, false).given(25.0, true).given(-5.0, true).full();
    assertEquals(40.0, full.pumpedMl());
    assertEquals(20.0, full.pouredMl());
    assertEquals(
        0.0, full().given(20.0, true).given(-30.0, true).full().pouredMl(), "never below 0");
    assertSame(WaterAccount.NONE, WaterAccount.NONE.given(40.0, false), "never full");
  }

  /** Of 40 mL ordered the pump gives three quarters: a rise of 24 g speaks for 32 mL of order. */
  @Test
  void whatDidNotArriveIsNotInTheCup() {
    WaterAccount given = full().given(60.0, false);
    assertEquals(60.0 - 40.0 + 32.0, given.arrived(40.0, 24.0, 0.75).full().pumpedMl(), 1e-12);
    assertEquals(20.0, given.arrived(40.0, -3.0, 1.0).full().pumpedMl(), "a fall is nothing");
    assertEquals(0.0, given.arrived(90.0, 5.0, 1.0).full().pumpedMl(), "never below 0");
    assertSame(WaterAccount.NONE, WaterAccount.NONE.arrived(40.0, 24.0, 0.75), "never full");
  }

  @Test
  void fullBeginsAnewWithWhatIsStillMissing() {
    SinceFull full =
        full().given(40.0, false).seen(after(1), 300, lost(5, 5)).filled(after(2), 4.0).full();
    assertEquals(after(2), full.at());
    assertEquals(4.0, full.roomMl());
    assertEquals(0.0, full.pumpedMl());
    assertEquals(0.0, full.countedG());
    assertEquals(0.0, full().filled(AT, -3.0).full().roomMl(), "above its line");
  }

  /** 5 g, then 0.5 g and an hour later 0.25 g; of each 1 g was foretold. */
  @ParameterizedTest(name = "{0} h later {1} g count, and then {2} g")
  @CsvSource({
    // Of the first day 2 x (1 + 1) g; the last loss falls into the next day.
    "23.999, 4.0, 4.25",
    // Of the first day 2 x 1 g; the others fall into the next.
    "24, 2.5, 2.75"
  })
  void eachDayCountsAtMostTwiceWhatIsForetold(double hours, double thenG, double lastG) {
    WaterAccount day = full().seen(AT, 300, lost(5.0, 1.0));
    WaterAccount later = day.seen(after(hours), 299, lost(0.5, 1.0));
    assertEquals(thenG, later.full().countedG(), 1e-12);
    WaterAccount last = later.seen(after(hours + 1.0), 298, lost(0.25, 1.0));
    assertEquals(lastG, last.full().countedG(), 1e-12);
  }

  @Test
  void gainIsNoLoss() {
    assertEquals(0.0, full().seen(AT, 305, lost(-5.0, 1.0)).full().countedG());
  }

  @Test
  void halfOfItsRoomIsBegunOnceInADay() {
    WaterAccount begun = WaterAccount.NONE.halfBegun(AT, 50.0);
    assertEquals(new HalfRoom(AT, 50.0), begun.half());
    assertSame(begun, begun.halfBegun(after(23), 70.0));
    assertEquals(new HalfRoom(after(24), 70.0), begun.halfBegun(after(24), 70.0).half());
  }

  @Test
  void partThatItsWeightShowed() {
    Rises rises = WaterAccount.NONE.rose(0.5).rose(0.7).rises();
    assertEquals(2, rises.passes());
    assertEquals(0.6, rises.part(), 1e-12);
  }

  @Test
  void scaleThatIsDoubtedIsReckonedOnWithWhatNothingExplains() {
    ScaleDrift suspected = ScaleDrift.suspected(AT, 30.0, 2.0, 0.5);
    assertFalse(suspected.told());
    ScaleDrift told = WaterAccount.NONE.drift(suspected).doubted(after(4), 250.0).drift();
    assertTrue(told.told());
    assertEquals(new ScaleDrift(AT, 30.0, 0.0, after(4), 2.0, 0.5, 280.0), told);
  }

  @Test
  void mostThatADayLostBeyondIsRemembered() {
    ScaleDrift drift = ScaleDrift.suspected(AT, 30.0, 2.0, 0.5).atLeast(0.4);
    assertEquals(0.4, drift.mostPart());
    assertEquals(0.4, drift.atLeast(0.2).mostPart());
    assertEquals(30.0, drift.unexplainedG());
  }

  @Test
  void doubtedScaleAddsWhatIsForetoldAndForgetsItsDay() {
    WaterAccount reckoned = full().seen(AT, 300, lost(2, 2)).reckoned(after(1), 290.0, 1.5);
    assertEquals(after(1), reckoned.seenAt());
    assertEquals(290.0, reckoned.seenG());
    assertEquals(LossLog.EMPTY, reckoned.losses());
    assertEquals(3.5, reckoned.full().countedG(), 1e-12);
    assertNull(WaterAccount.NONE.reckoned(after(1), 290.0, 1.5).full());
  }

  @Test
  void cupThatNobodyWeighsLosesWhatItIsReckonedTo() {
    WaterAccount weighed = full().seen(AT, 300, lost(2, 2));
    WaterAccount blind = weighed.unweighed(after(1), 1.5);
    assertNull(blind.seenAt());
    assertTrue(Double.isNaN(blind.seenG()), "the next weight begins anew");
    assertEquals(weighed.losses(), blind.losses());
    assertEquals(3.5, blind.full().countedG(), 1e-12);
    assertNull(WaterAccount.NONE.unweighed(after(1), 1.5).full());
  }

  @Test
  void provedScaleIsBelievedAndItsUseKeptUnlessItWasRightAllAlong() {
    WaterAccount doubted =
        full()
            .usual(USUAL)
            .more(2.0)
            .rose(0.5)
            .seen(AT, 300, lost(2, 2))
            .halfBegun(AT, 50.0)
            .drift(ScaleDrift.suspected(AT, 30.0, 2.0, 0.5))
            .doubted(after(4), 250.0);
    WaterAccount mended = doubted.proved(false);
    assertEquals(WaterAccount.NONE.usual(USUAL).halfBegun(AT, 50.0).rose(0.5), mended);
    assertEquals(UsualUse.UNKNOWN, doubted.proved(true).usual());
  }
}
