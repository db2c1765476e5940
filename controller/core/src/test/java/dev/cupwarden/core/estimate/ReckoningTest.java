package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** What is learned of a cup while it is weighed, and done with it while it is not. */
class ReckoningTest {
  private static OwnWater water() {
    return OwnWater.from(Cups.START, 300, 2, new OwnWater.Trust(0.04, 0.1, 0.01), 1);
  }

  @Test
  void cupThatIsWeighedIsNotReckonedOn() {
    assertFalse(Reckoning.NONE.on());
    assertNull(Reckoning.NONE.since());
    assertSame(Reckoning.NONE, Reckoning.NONE.pass(30, 500));
    assertSame(Reckoning.NONE, Reckoning.NONE.watered(30, 500));
    assertSame(Reckoning.NONE, Reckoning.NONE.without(30));
  }

  /** Its passes showed 0.9 of what was ordered; a person's can is taken at its word. */
  @Test
  void passesComeAsTheyDidAndACanWhole() {
    Reckoning reckoned = Reckoning.NONE.arrived(24, 30).with(water());
    assertTrue(reckoned.on());
    assertEquals(Cups.START, reckoned.since());
    assertEquals(336, reckoned.pass(40, 500).water().massG(), 1e-6);
    assertEquals(340, reckoned.watered(40, 500).water().massG(), 1e-6);
    assertEquals(260, reckoned.without(40).water().massG());
  }

  @Test
  void whatWasReckonedGivesWayToTheWeight() {
    Reckoning reckoned = Reckoning.NONE.with(water());
    Reckoning weighed = reckoned.weighed(2, 1, 1);
    assertFalse(weighed.on());
    assertEquals(2, weighed.share().openLostG());
    Reckoning watered = reckoned.wateredFor(1, 1);
    assertFalse(watered.on());
    assertSame(Share.NONE, watered.share(), "which hours are bright is not known yet");
    assertSame(reckoned.arrivals(), watered.arrivals());
  }
}
