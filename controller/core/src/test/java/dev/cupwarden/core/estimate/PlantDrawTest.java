package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** A cup whose mix loses 0.2 g/h and kPa by day and night, and its leaves 0.5 more in the light. */
class PlantDrawTest {
  private PlantDraw draw = PlantDraw.NONE;
  private double massG = 400.0;

  @Test
  void plantsOwnDrawIsDayLessNight() {
    day(0.2, 0.5);
    assertEquals(0.5, draw.today().draw(), 1e-9);
  }

  @Test
  void leavesThatDrawAThirdLessForTwoDaysAreASign() {
    days(10, 0.2, 0.5, 0.0);
    days(1, 0.2, 0.33, 0.0);
    assertFalse(draw.fallen(), "one day is a window left open, a cloud");
    assertEquals(-0.34, draw.lately(), 0.01);
    days(1, 0.2, 0.33, 0.0);
    assertTrue(draw.fallen());
  }

  @Test
  void surfaceThatDriesAfterAWateringIsNoSign() {
    days(10, 0.2, 0.5, 0.0);
    days(3, 0.05, 0.5, 0.0);
    assertFalse(draw.fallen());
  }

  @Test
  void dullWeatherThatMovesAllIsNoSign() {
    days(10, 0.2, 0.5, 0.0);
    days(2, 0.2, 0.33, -0.34);
    assertFalse(draw.fallen());
  }

  @Test
  void signEndsWhenItDrawsAgain() {
    days(10, 0.2, 0.5, 0.0);
    days(2, 0.2, 0.33, 0.0);
    assertTrue(draw.fallen());
    days(1, 0.2, 0.49, 0.0);
    assertFalse(draw.fallen());
  }

  @Test
  void leaflessWoodShowsNothing() {
    days(10, 0.2, 0.02, 0.0);
    days(3, 0.2, 0.0, 0.0);
    assertFalse(draw.fallen());
  }

  @Test
  void waterGivenBetweenIsNotCounted() {
    day(0.2, 0.5);
    double before = draw.today().litG();
    draw = draw.interrupted();
    massG += 30;
    draw = draw.dried(massG, 1.0, 1.0, true);
    assertEquals(before, draw.today().litG(), 1e-9);
  }

  private void days(int days, double mix, double leaves, double neighbours) {
    for (int i = 0; i < days; i++) {
      day(mix, leaves);
      draw = draw.close(neighbours, true);
    }
  }

  private void day(double mix, double leaves) {
    draw = draw.dried(massG, 0.0, 1.0, false);
    for (int hour = 0; hour < 24; hour++) {
      boolean light = hour >= 8 && hour < 17;
      massG -= mix + (light ? leaves : 0.0);
      draw = draw.dried(massG, 1.0, 1.0, light);
    }
  }
}
