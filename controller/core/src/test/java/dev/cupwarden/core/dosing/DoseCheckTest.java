package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A pass of 40 mL into a cup of 300 g: a fifth is 8 g, four fifths 32 g, a fifth more 48 g. */
class DoseCheckTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");

  @ParameterizedTest(name = "{0} mL, sd {1} g, {2} g read: {3}")
  @CsvSource({
    "40, 0.1, 300.0, SHORT",
    "40, 0.1, 307.9, SHORT",
    "40, 0.1, 308.0, BYPASS",
    "40, 0.1, 331.9, BYPASS",
    "40, 0.1, 332.0, ARRIVED",
    "40, 0.1, 348.0, ARRIVED",
    "40, 0.1, 348.1, OVER",
    // A fifth of 10 mL is less than the 3 g, or 6 standard deviations, of any doubt.
    "10, 0.1, 313.0, ARRIVED",
    "10, 0.1, 313.1, OVER",
    "10, 0.5, 313.1, OVER",
    "10, 1.0, 316.0, ARRIVED",
    "10, 1.0, 316.1, OVER"
  })
  void verdictByThePartThatArrived(double ml, double sdG, double massG, DoseCheck.Verdict verdict) {
    PassOnTrial pass = new PassOnTrial(AT, 1, ml, 300.0, 0.0, sdG);
    assertEquals(verdict, DoseCheck.judge(pass, AT.plusSeconds(720), massG).verdict());
  }

  @ParameterizedTest(name = "{0} g/h for {1} min: {2} g")
  @CsvSource({"0, 30, 30.0", "2, 30, 31.0", "2, 15, 30.5", "-4, 15, 29.0"})
  void whatItLostMeanwhileIsAddedBack(double rateGPerH, long minutes, double riseG) {
    PassOnTrial pass = new PassOnTrial(AT, 1, 40.0, 300.0, rateGPerH, 0.1);
    DoseCheck.Finding found = DoseCheck.judge(pass, AT.plus(Duration.ofMinutes(minutes)), 330.0);
    assertEquals(riseG, found.riseG(), 1e-9);
    assertEquals(40.0, found.orderedMl());
  }

  @Test
  void passesThatFollowEachOtherAreJudgedTogether() {
    PassOnTrial first = new PassOnTrial(AT, 1, 30.0, 300.0, 2.0, 0.1);
    PassOnTrial later = new PassOnTrial(AT.plusSeconds(720), 2, 20.0, 329.0, 3.0, 0.4);
    assertEquals(new PassOnTrial(AT.plusSeconds(720), 3, 50.0, 300.0, 2.0, 0.1), first.plus(later));
  }

  @ParameterizedTest(name = "after {0} s: judges {1}, lapsed {2}")
  @CsvSource({
    "0, false, false",
    "59, false, false",
    "60, true, false",
    "1800, true, false",
    "1801, false, true"
  })
  void readingOfOneToThirtyMinutesJudges(long seconds, boolean judges, boolean lapsed) {
    PassOnTrial pass = new PassOnTrial(AT, 1, 40.0, 300.0, 0.0, 0.1);
    assertEquals(judges, DoseCheck.judges(pass, AT.plusSeconds(seconds)));
    assertEquals(lapsed, DoseCheck.lapsed(pass, AT.plusSeconds(seconds)));
  }
}
