package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** A cup of 400 g at capacity with 250 g to give: its knee lies at 250 g, its end at 150 g. */
class DryFallTest {
  private static final DryFall FALL = DryFall.of(new WeightFrame(100, 400, 500, 250));

  @Test
  void fallsInAStraightLineFromTheKnee() {
    assertEquals(250, FALL.kneeG());
    assertEquals(150, FALL.endG());
    assertEquals(1, FALL.part(400));
    assertEquals(1, FALL.part(250));
    assertEquals(0.7, FALL.part(220), 1e-12);
    assertEquals(0.05, FALL.part(155), 1e-12);
    assertEquals(0.05, FALL.part(140), 1e-12, "bark and mix still lose something");
    assertEquals(1, FALL.times(300, 260));
    assertEquals(0.5, FALL.times(300, 200), 1e-12);
    assertEquals(2, FALL.times(200, 300), 1e-12, "watered");
    assertEquals(0.4 / 0.7, FALL.times(220, 190), 1e-12);
  }

  /** From 280 g: 30 g down to the knee; to 200 g, half of what is left, 100 ln 2 = 69.3147. */
  @Test
  void waterThatACupWhichDoesNotSlowWouldHaveLost() {
    assertEquals(20, FALL.unslowedG(280, 260), 1e-12);
    assertEquals(30, FALL.unslowedG(280, 250), 1e-12);
    assertEquals(99.3147, FALL.unslowedG(280, 200), 1e-4);
    assertEquals(69.3147, FALL.unslowedG(200, 175), 1e-4);
    // To a twentieth of the span, 100 ln 20 = 299.5732, and no longer.
    assertEquals(299.5732, FALL.unslowedG(250, 120), 1e-4);
    assertEquals(260, FALL.massAfter(280, 20), 1e-12);
    assertEquals(200, FALL.massAfter(280, 99.3147), 1e-4);
    assertEquals(175, FALL.massAfter(200, 69.3147), 1e-4);
    assertEquals(152, FALL.massAfter(152, 0), "near its end, and nothing lost");
    assertEquals(-500, DryFall.NEVER.massAfter(100, 600));
    assertEquals(600, DryFall.NEVER.unslowedG(100, -500));
  }
}
