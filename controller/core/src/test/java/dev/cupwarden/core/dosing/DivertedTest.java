package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Passes of 30 mL to three cups, of which one open valve elsewhere takes half: 3 x 15 g. */
class DivertedTest {
  private static Diverted halved() {
    return missed(15).judged(rise(15), 1.0).judged(rise(15), 1.0);
  }

  private static DoseCheck.Finding rise(double riseG) {
    return new DoseCheck.Finding(DoseCheck.Verdict.BYPASS, riseG, 30.0);
  }

  private static Diverted missed(double riseG) {
    return Diverted.NONE.judged(rise(riseG), 1.0);
  }

  @Test
  void whatTheOthersMissedIsFoundInTheCupThatGotNone() {
    assertEquals(45.0, halved().missedG());
    assertTrue(halved().cameTo(45.0));
  }

  @Test
  void gainAndLossAgreeWithinAQuarter() {
    // 45 / 4 = 11.25.
    assertTrue(halved().cameTo(33.8) && halved().cameTo(56.2));
    assertFalse(halved().cameTo(33.7) || halved().cameTo(56.3));
  }

  @Test
  void knockWhileEveryPassArrivesIsNoOpenValve() {
    assertFalse(missed(30).cameTo(20.0));
    assertFalse(Diverted.NONE.cameTo(0.0));
  }

  @Test
  void oneCupThatGotItsPassWholeSpeaksAgainstAnOpenValve() {
    // 15 g are missed by a mix that sheds water, and 15 g poured elsewhere.
    assertFalse(missed(15).judged(rise(30), 1.0).cameTo(15.0));
  }

  /** Four fifths of 30 mL are 24 mL. */
  @Test
  void cupThatGotFourFifthsMissedNothing() {
    assertTrue(missed(15).judged(rise(23.9), 1.0).cameTo(21.1));
    assertFalse(missed(15).judged(rise(24), 1.0).cameTo(21.0));
  }

  @Test
  void lessThanTenGramsProveNothing() {
    assertTrue(missed(20).cameTo(10.0));
    assertFalse(missed(20.1).cameTo(9.9));
  }

  /** Of 40 g three quarters are 30, five quarters 50. */
  @Test
  void justAQuarterAgrees() {
    Diverted diverted = missed(10).judged(rise(10), 1.0);
    assertTrue(diverted.cameTo(30.0) && diverted.cameTo(50.0));
  }

  @Test
  void passThatCameToAnotherCupWholeIsFoundThoughTheOthersArrived() {
    var never = new DoseCheck.Finding(DoseCheck.Verdict.SHORT, 0.5, 30.0);
    Diverted exchanged = missed(30).judged(rise(24.5), 1.0).judged(never, 1.0);
    // 29.5 g never came; 22.2 g, a quarter less, are the least that agree.
    assertTrue(exchanged.cameTo(30.0) && exchanged.cameTo(22.2));
    assertFalse(exchanged.cameTo(22.0));
    // With a second that never came, 29.5 + 28 = 57.5 g.
    var second = new DoseCheck.Finding(DoseCheck.Verdict.SHORT, 2.0, 30.0);
    assertTrue(exchanged.judged(second, 1.0).cameTo(57.5));
  }

  @Test
  void whatAWeakPumpNeverGaveIsNotMissed() {
    // 0.75 of 30 mL are 22.5 mL, of which 20 came.
    assertFalse(Diverted.NONE.judged(rise(20), 0.75).cameTo(10.0));
  }
}
