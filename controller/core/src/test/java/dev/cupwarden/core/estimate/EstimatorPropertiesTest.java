package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Json;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

/** What must hold of the estimator whatever it is fed. */
class EstimatorPropertiesTest {
  private final Estimator estimator = new Estimator(new EstimatorSettings(Duration.ofMinutes(5)));

  @Property(tries = 200)
  void stuckScaleIsNeverTrustedAfterThreeQuartersOfAnHour(
      @ForAll @DoubleRange(min = 90, max = 490) double stuckG,
      @ForAll @IntRange(min = 0, max = 60) int looksBefore,
      @ForAll @DoubleRange(min = 0.3, max = 3) double gPerH) {
    Cups cup = new Cups();
    double fromG = Math.min(490, stuckG + gPerH * looksBefore / 12);
    cup.dries(looksBefore, fromG, gPerH);
    double deadG = stuckG + 0.000123;
    for (int looks = 0; looks < 60; looks++) {
      CupEstimate seen = cup.look(5, deadG, 0, true);
      if (looks >= 9) {
        assertFalse(seen.trusted(), "after " + looks * 5 + " min");
      }
    }
    assertEquals("scale-stuck", cup.code());
  }

  @Property(tries = 100)
  void restartFromJsonChangesNothing(@ForAll("looks") List<CupReading> looks)
      throws JsonProcessingException {
    EstimateState through = EstimateState.fresh();
    EstimateState restarted = EstimateState.fresh();
    Instant now = Cups.START;
    for (CupReading told : looks) {
      now = now.plusSeconds(told.at().getEpochSecond());
      CupReading reading = at(now, told);
      EstimateStep one = estimator.step(through, Cups.TALL, reading);
      EstimateStep other = estimator.step(restarted, Cups.TALL, reading);
      assertEquals(one, other);
      through = one.state();
      restarted =
          Json.MAPPER.readValue(Json.MAPPER.writeValueAsString(other.state()), EstimateState.class);
    }
  }

  @Property(tries = 400)
  void nothingThrowsAndNothingTrustedIsAbsurd(@ForAll("looks") List<CupReading> looks) {
    EstimateState state = EstimateState.fresh();
    Instant now = Cups.START;
    for (CupReading told : looks) {
      now = now.plusSeconds(told.at().getEpochSecond());
      state = estimator.step(state, Cups.TALL, at(now, told)).state();
      CupEstimate seen = CupEstimate.at(state, Cups.TALL, now);
      assertTrue(Double.isFinite(seen.massG()) && Double.isFinite(seen.massSdG()));
      assertTrue(Double.isFinite(seen.rateGPerH()) && Double.isFinite(seen.rateSdGPerH()));
      if (seen.trusted()) {
        assertTrue(seen.massG() >= Cups.TALL.dryG(), "mass " + seen.massG());
        assertTrue(seen.massG() <= 1.05 * Cups.TALL.saturatedG(), "mass " + seen.massG());
      }
      assertTrue(!CupEstimate.at(state, Cups.TALL, now.plus(Duration.ofHours(1))).trusted());
    }
  }

  /** Looks of all kinds; {@code at} holds the seconds since the look before. */
  @Provide
  Arbitrary<List<CupReading>> looks() {
    Arbitrary<Double> massG =
        Arbitraries.frequencyOf(
            Tuple.of(12, Arbitraries.doubles().between(300, 310)),
            Tuple.of(4, Arbitraries.doubles().between(70, 520)),
            Tuple.of(2, Arbitraries.doubles().between(-2, 2)),
            Tuple.of(1, Arbitraries.doubles()),
            Tuple.of(
                1,
                Arbitraries.of(
                    Double.NaN,
                    Double.POSITIVE_INFINITY,
                    Double.NEGATIVE_INFINITY,
                    Double.MAX_VALUE,
                    -0.0)));
    Arbitrary<Instant> since =
        Arbitraries.of(300L, 300L, 300L, 300L, 0L, 60L, 900L, 86_400L, 864_000L)
            .map(Instant::ofEpochSecond);
    Arbitrary<Double> doseMl = Arbitraries.of(0.0, 0.0, 0.0, 5.0, 30.0, Double.NaN, -3.0);
    Arbitrary<Double> air = Arbitraries.of(0.0, 0.4, 1.2, 3.0, Double.NaN, -1.0, 1e9);
    Arbitrary<Double> tempC = Arbitraries.of(15.0, 20.0, 28.0, Double.NaN, -300.0, 1e9);
    return Combinators.combine(
            since,
            massG,
            doseMl,
            air,
            tempC,
            Arbitraries.of(0.0, 30.0, 150.0, Double.NaN, -1.0, 1e9),
            Arbitraries.of(true, false))
        .as(CupReading::new)
        .list()
        .ofMaxSize(60);
  }

  private static CupReading at(Instant now, CupReading told) {
    return new CupReading(
        now,
        told.massG(),
        told.ownDoseMl(),
        told.vpdKpa(),
        told.tempC(),
        told.light(),
        told.neighboursMoved());
  }
}
