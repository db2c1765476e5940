package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What one reading, or two, make of a change of a quiet cup's weight. A reading belongs within 2 g
 * of what is expected; all bounds are our choice.
 */
class FollowingTest {
  private final Cups cup = new Cups();
  private double massG;

  @BeforeEach
  void driesForTwelveHours() {
    massG = cup.dries(144, 320, 0.6);
  }

  /** Of 30 mL a fifth more, 3 g and the 2 g: 41 g. */
  @ParameterizedTest(name = "{0} g after a pass of 30 mL: \"{1}\"")
  @CsvSource({
    "30, OwnDose",
    "0, OwnDose",
    "40.5, OwnDose",
    "41.6, ''",
    "-1.7, OwnDose",
    "-2.6, ''"
  })
  void riseThatIsThePass(double riseG, String event) {
    cup.look(5, massG + riseG, 30, true);
    assertEquals(event, cup.told());
  }

  @Test
  void passIsMeasuredAndWhatDidNotShowMayComeLate() {
    cup.look(5, massG + 20, 30, true);
    assertEquals(20, cup.events(WeightEvent.OwnDose.class).get(0).gainG(), 0.2);
    assertEquals(10, cup.state.awaitedMl(), 0.2);
    cup.looks(5, massG + 29);
    assertEquals("OwnDose OwnDose", cup.told());
    assertEquals(9, cup.events(WeightEvent.OwnDose.class).get(1).gainG(), 0.3);
  }

  /** More than the pass can have brought, and borne out: the pass is in it all the same. */
  @Test
  void greaterRiseWhileAPassIsAwaitedIsToldWithIt() {
    cup.look(5, massG + 60, 30, true);
    assertEquals("", cup.told());
    cup.reads(massG + 60);
    assertEquals("OwnDose", cup.told());
    assertEquals(60, cup.events(WeightEvent.OwnDose.class).get(0).gainG(), 0.3);
    assertEquals(0, cup.state.awaitedMl());
    assertTrue(cup.estimate().trusted());
  }

  /** Two readings of one change agree within a tenth of it. */
  @ParameterizedTest(name = "{0} g and then {1} g: \"{2}\", {3}")
  @CsvSource({
    "50, 46, HandWatering, trusted",
    "50, 44, '', settling",
    "50, 50, HandWatering, trusted",
    "50, 0, '', trusted",
    "-50, -46, Returned, settling",
    "-50, -44, '', settling",
    "50, -50, '', settling"
  })
  void secondReadingTellsWhatTheFirstWas(double firstG, double secondG, String event, String code) {
    cup.reads(massG + firstG);
    assertEquals("", cup.told());
    assertEquals("trusted", cup.code(), "one reading is only in doubt");
    cup.reads(massG + secondG);
    assertEquals(event, cup.told());
    assertEquals(code, cup.code());
  }

  @ParameterizedTest(name = "{0} g: in doubt {1}")
  @CsvSource({"1.7, false", "-1.7, false", "2.6, true", "-2.6, true"})
  void readingThatBelongs(double offG, boolean doubted) {
    cup.reads(massG + offG);
    assertEquals(doubted, cup.state.inDoubt());
  }

  @Test
  void readingInDoubtMakesTheWeightUnsureByHalfOfWhatItIsOff() {
    cup.reads(massG + 40);
    assertEquals(20, cup.estimate().massSdG(), 0.2);
    assertEquals(massG, cup.estimate().massG(), 0.3);
    Doubt doubt = new Doubt(Cups.START, 300, 10);
    assertTrue(doubt.confirmedBy(302, 2) && doubt.confirmedBy(298, 2));
    assertFalse(doubt.confirmedBy(302.1, 2));
  }

  /** In a day it may lose its 271.754 mL, in an hour 11.3 g; over a gap one reading is enough. */
  @ParameterizedTest(name = "{0} g over an hour: \"{1}\", {2}")
  @CsvSource({"30, HandWatering, trusted", "-8, '', trusted", "-20, Returned, settling"})
  void readingAfterAGapIsTakenAsItIs(double changeG, String event, String code) {
    cup.looks(60, massG + changeG);
    assertEquals(event, cup.told());
    assertEquals(code, cup.code());
    assertEquals(massG + changeG, cup.estimate().massG(), 1.0);
  }

  /** A reading in doubt before the gap: the next is nearer to it, or to what was before. */
  @Test
  void doubtBeforeAGapIsToldByTheReadingAfterIt() {
    cup.reads(massG + 40);
    cup.looks(60, massG + 39.4);
    assertEquals("HandWatering", cup.told());
    assertEquals(40, cup.events(WeightEvent.HandWatering.class).get(0).gainG(), 0.5);
    assertEquals(massG + 39.4, cup.estimate().massG(), 1.0);
  }

  @Test
  void spikeBeforeAGapIsForgottenAfterIt() {
    cup.reads(massG + 40);
    cup.looks(60, massG - 0.6);
    assertEquals("", cup.told());
    assertEquals(massG - 0.6, cup.estimate().massG(), 1.0);
    assertTrue(cup.estimate().trusted());
  }
}
