package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/**
 * A thousandth of a change of load, fading by e in a quarter of an hour (from memory, data sheets).
 */
class CreepTest {
  @Test
  void fadesByEInAQuarterOfAnHour() {
    Creep creep = Creep.NONE.after(Cups.START, -400);
    assertEquals(0.16, creep.var(Cups.START), 1e-12);
    assertEquals(0.16 * Math.exp(-2), creep.var(Cups.START.plusSeconds(900)), 1e-12);
    assertEquals(0.16 * Math.exp(-4), creep.var(Cups.START.plusSeconds(1800)), 1e-12);
    assertEquals(0.0, Creep.NONE.var(Cups.START));
  }

  /** After a quarter of an hour 0.4 / e g are left, and 0.1 g come on top. */
  @Test
  void changeOnTopOfAChange() {
    Creep twice = Creep.NONE.after(Cups.START, 400).after(Cups.START.plusSeconds(900), 100);
    assertEquals(0.4 / Math.E + 0.1, twice.amplitudeG(), 1e-12);
  }

  @Test
  void isGoneAfterFiveHours() {
    Creep creep = Creep.NONE.after(Cups.START, 1e9);
    assertEquals(1e12 * Math.exp(-40), creep.var(Cups.START.plusSeconds(5 * 3600)), 1e-9);
    assertEquals(0.0, creep.var(Cups.START.plusSeconds(5 * 3600 + 1)));
  }
}
