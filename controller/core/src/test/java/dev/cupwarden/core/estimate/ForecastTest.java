package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class ForecastTest {
  @Test
  void steadyCupReachesALineWhenItsRateSaysSo() {
    Cups cup = new Cups();
    double massG = cup.dries(288, 340, 1.2);
    Forecast due = to(cup, massG - 24, OptionalDouble.empty());
    assertEquals(20, due.hours(), 1);
    assertTrue(due.lowHours() < due.hours() && due.hours() < due.highHours());
    assertEquals(
        massG - 24,
        Forecast.massAfter(due.hours(), 0, cup.estimate(), cup.state, OptionalDouble.empty()),
        0.01);
  }

  @Test
  void forecastSurvivesAChangeOfWeather() {
    Cups cup = new Cups();
    for (int i = 0; i < 288; i++) {
      cup.look(5, inAir(340 - 1.2 * i / 12 + Cups.wobble(i), 1.1));
    }
    double massG = cup.estimate().massG();
    Forecast damp = to(cup, massG - 24, OptionalDouble.of(0.5));
    assertEquals(20 * 1.2 / 0.6, damp.hours(), 2, "half the drying power, twice the time");
    CupEstimate atOnce = cup.look(5, inAir(massG - 0.05, 0.5));
    assertEquals(0.6, atOnce.rateGPerH(), 0.1);
  }

  @Test
  void lineThatWasPassedIsDueNowAndADeadCalmIsNever() {
    Cups cup = new Cups();
    cup.dries(48, 340, 1.2);
    assertEquals(0, to(cup, 400, OptionalDouble.empty()).hours());
    Cups still = new Cups();
    still.dries(288, 340, 0);
    Forecast never = to(still, 100, OptionalDouble.empty());
    assertTrue(never.hours() > 24 * 30, "hours " + never.hours());
    assertNull(Forecast.NEVER.from(Cups.START));
  }

  @Test
  void probeReadsAsTheWeightTheCupWouldHave() {
    assertEquals(78.559 + 0.4 * 515.59, MoistureProbe.massG(0.4, 515.59, 78.559), 1e-9);
    assertTrue(Double.isNaN(MoistureProbe.massG(1.2, 515.59, 78.559)));
    assertTrue(Double.isNaN(MoistureProbe.massG(Double.NaN, 515.59, 78.559)));
  }

  private static CupReading inAir(double massG, double vpdKpa) {
    return new CupReading(Cups.START, massG, 0, vpdKpa, Double.NaN, Double.NaN, true);
  }

  private static Forecast to(Cups cup, double targetG, OptionalDouble vpdKpa) {
    return Forecast.to(targetG, cup.estimate(), cup.state, vpdKpa);
  }
}
