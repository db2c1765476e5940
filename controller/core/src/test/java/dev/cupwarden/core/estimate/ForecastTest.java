package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.estimate.Forecast.Bound;
import dev.cupwarden.core.estimate.Forecast.Rates;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class ForecastTest {
  private static final Forecast STEADY = new Forecast(300, 1, new Rates(3, 0.2, 1, 0.12));

  @Test
  void steadyCupReachesALineWhenItsRateSaysSo() {
    Cups cup = new Cups();
    double massG = cup.dries(288, 340, 1.2);
    Forecast due = of(cup, OptionalDouble.empty());
    double hours = likely(due, massG - 24);
    assertEquals(20, hours, 1);
    assertTrue(due.hoursTo(massG - 24, Bound.EARLY) < hours);
    assertTrue(hours < due.hoursTo(massG - 24, Bound.LATE));
    assertEquals(massG - 24, due.massAfter(hours, 0), 0.01);
  }

  @Test
  void forecastSurvivesAChangeOfWeather() {
    Cups cup = new Cups();
    for (int i = 0; i < 288; i++) {
      cup.look(5, inAir(340 - 1.2 * i / 12 + Cups.wobble(i), 1.1));
    }
    double massG = cup.estimate().massG();
    Forecast damp = of(cup, OptionalDouble.of(0.5));
    assertEquals(
        20 * 1.2 / 0.6, likely(damp, massG - 24), 2, "half the drying power, twice the time");
    CupEstimate atOnce = cup.look(5, inAir(massG - 0.05, 0.5));
    assertEquals(0.6, atOnce.rateGPerH(), 0.1);
  }

  @Test
  void lineThatWasPassedIsDueNowAndADeadCalmIsNever() {
    Cups cup = new Cups();
    cup.dries(48, 340, 1.2);
    assertEquals(0, likely(of(cup, OptionalDouble.empty()), 400));
    Cups still = new Cups();
    still.dries(288, 340, 0);
    Forecast never = of(still, OptionalDouble.empty());
    double hours = likely(never, 100);
    assertTrue(hours > 24 * 30, "hours " + hours);
    assertNull(STEADY.timeOf(-1e6, Bound.LIKELY, Cups.START), "beyond a year");
  }

  /**
   * By hand, for 300 g ± 1 g that loses 3 ± 0.2 g/h now and 1 ± 0.12 g/h by whole days, τ = 4 h.
   * Likely L(8) = 8 + 2·4·(1 − e⁻²) = 14.9173 g. One in ten: rates 3.25632 and 1.153792 g/h, L(8) =
   * 9.230336 + 2.102528·4·0.864665 = 16.5023 g from 298.7184 g.
   */
  @Test
  void presentRateFadesIntoTheMeanAndTheEarlyBoundIsDrierAndFaster() {
    assertEquals(300 - 14.9173, STEADY.massAfter(8, 0), 1e-4);
    assertEquals(8, STEADY.hoursTo(300 - 14.9173, Bound.LIKELY), 1e-4);
    assertEquals(8, STEADY.hoursTo(298.7184 - 16.5023, Bound.EARLY), 1e-3);
  }

  /** Of a rate that only the stage foretells: 1 g/h ± 0.5 makes 1.6408 g/h; 24 g in 14.627 h. */
  @Test
  void foretoldRateIsTakenAtOneAndAHalfTimesAndMore() {
    Forecast fresh = Forecast.foretold(224, 0, 1);
    assertEquals(24, fresh.hoursTo(200, Bound.LIKELY), 1e-3);
    assertEquals(14.627, fresh.hoursTo(200, Bound.EARLY), 1e-3);
    // At 2 g/h ± 1 half as long.
    assertEquals(7.3135, Forecast.foretold(224, 0, 2).hoursTo(200, Bound.EARLY), 1e-3);
  }

  /** One in ten dries by 0.25632 and 0.1538 g/h less, and began 1.2816 g wetter. */
  @Test
  void lateBoundIsWetterAndSlower() {
    // Rates 2.74368 and 0.846208: L(8) = 6.769664 + 1.897472 x 4 x 0.864665 = 13.33238 g.
    assertEquals(8, STEADY.hoursTo(301.2816 - 13.33238, Bound.LATE), 1e-3);
    Forecast unsure = new Forecast(300, 0, new Rates(1, 2, 1, 2));
    assertEquals(Double.POSITIVE_INFINITY, unsure.hoursTo(299, Bound.LATE), "it may not dry");
  }

  /**
   * Half way from the knee at 256 g to the end at 160 g a cup loses half of what it does when wet:
   * 0.6 g/h ± 0.1 are 1.2 ± 0.2 of a wet one.
   */
  @Test
  void rateOfADryCupIsHeldAgainstThatOfAWetOne() {
    CupEstimate dry =
        new CupEstimate(true, 208, 0, 0.1, 0.6, 0.1, true, Optional.empty(), false, Cups.START);
    Forecast.Rates rates =
        Forecast.of(
                208, dry, EstimateState.fresh(), StillCup.FRAME, OptionalDouble.empty(), Double.NaN)
            .rates();
    assertEquals(1.2, rates.nowGPerH(), 1e-12);
    assertEquals(0.2, rates.nowSdGPerH(), 1e-12);
  }

  @Test
  void timeIsToldToTheMinute() {
    Forecast even = new Forecast(300, 0, new Rates(1, 0, 1, 0));
    assertEquals(
        Cups.START.plus(Duration.ofMinutes(90)), even.timeOf(298.5, Bound.LIKELY, Cups.START));
    assertEquals(
        Cups.START.plus(Duration.ofMinutes(1)), even.timeOf(299.99, Bound.LIKELY, Cups.START));
    assertEquals(Cups.START, even.timeOf(300, Bound.LIKELY, Cups.START));
    assertEquals(0, even.hoursTo(300, Bound.LIKELY), "it weighs that now");
    assertEquals(8760, even.hoursTo(300 - 8759.999, Bound.LIKELY), 0.01, "a year");
    assertEquals(Double.POSITIVE_INFINITY, even.hoursTo(300 - 8760.1, Bound.LIKELY));
  }

  @Test
  void dryBeforeATimeAndNotAtIt() {
    Forecast even = new Forecast(300, 0, new Rates(1, 0, 1, 0));
    Instant twoHours = Cups.START.plus(Duration.ofHours(2));
    assertEquals(false, even.before(twoHours, 298, Bound.LIKELY, Cups.START));
    assertEquals(true, even.before(twoHours, 298.01, Bound.LIKELY, Cups.START));
    assertEquals(100, even.massAfter(1e4, 100), "never below its dry parts");
  }

  @Property
  void isDryBeforeATimeIfThatBoundOfTheTimeComesFirst(
      @ForAll @DoubleRange(min = 0, max = 4) double nowGPerH,
      @ForAll @DoubleRange(min = 0.01, max = 3) double meanGPerH,
      @ForAll @DoubleRange(min = 0, max = 5) double sdG,
      @ForAll @DoubleRange(min = 1, max = 200) double roomG,
      @ForAll Bound bound,
      @ForAll @IntRange(min = 1, max = 200) int hours) {
    Forecast one =
        new Forecast(300, sdG, new Rates(nowGPerH, nowGPerH / 4, meanGPerH, meanGPerH / 8));
    double untilH = one.hoursTo(300 - roomG, bound);
    Assume.that(Math.abs(untilH - hours) > 1e-3);
    Instant until = Cups.START.plus(Duration.ofHours(hours));
    assertEquals(untilH < hours, one.before(until, 300 - roomG, bound, Cups.START));
  }

  @Test
  void probeReadsAsTheWeightTheCupWouldHave() {
    assertEquals(78.559 + 0.4 * 515.59, MoistureProbe.massG(0.4, 515.59, 78.559), 1e-9);
    assertEquals(80, MoistureProbe.massG(0, 500, 80));
    assertEquals(580, MoistureProbe.massG(1, 500, 80));
    assertTrue(Double.isNaN(MoistureProbe.massG(-0.001, 500, 80)));
    assertThrows(IllegalArgumentException.class, () -> MoistureProbe.massG(0.4, 0, 80));
    assertTrue(Double.isNaN(MoistureProbe.massG(1.2, 515.59, 78.559)));
    assertTrue(Double.isNaN(MoistureProbe.massG(Double.NaN, 515.59, 78.559)));
  }

  private static CupReading inAir(double massG, double vpdKpa) {
    return new CupReading(Cups.START, massG, 0, vpdKpa, Double.NaN, Double.NaN, true);
  }

  private static Forecast of(Cups cup, OptionalDouble vpdKpa) {
    return Forecast.of(
        cup.estimate().massG(), cup.estimate(), cup.state, Cups.TALL, vpdKpa, Double.NaN);
  }

  private static double likely(Forecast forecast, double targetG) {
    return forecast.hoursTo(targetG, Bound.LIKELY);
  }
}
