package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** A lamp whose light nobody measures counts 100 µmol/m²/s: our choice. */
class LightKnownTest {
  @Test
  void lampCountsWhereNoSensorTellsTheLight() {
    LightKnown clock = new LightKnown(Double.NaN, Double.NaN, 8.5);
    assertFalse(clock.measured());
    assertEquals(Double.NaN, clock.umol());
    assertEquals(100, clock.byLamp(true).umol());
    assertEquals(0, clock.byLamp(false).umol());
    assertEquals(8.5, clock.byLamp(true).hour());
  }

  @Test
  void sensorIsBelievedBeforeTheLamp() {
    LightKnown measured = LightKnown.measured(150).byLamp(false);
    assertTrue(measured.measured());
    assertEquals(150, measured.umol());
    assertEquals(0, LightKnown.measured(0).byLamp(true).umol(), "a lamp that failed");
  }
}
