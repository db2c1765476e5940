package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.Rest;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.state.Weighing;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a person's word and a weight at rest teach A1, which is predicted to weigh 401.872 g at
 * capacity.
 */
class WeighDrainedTest {
  private final BenchDraft draft = new DraftBench().draft();
  private final CupDraft cup = DraftBench.weighs(draft, "A1", 400.0);

  /** Asked so many minutes ago; an earlier reading of that weight is so old. */
  private void asked(double minutes, double markG, double markMinutes, boolean sure) {
    Rest rest = new Rest(markG, ago(markMinutes));
    cup.weight =
        cup.weight.with(
            cup.weight.weighing().asking(new Weighing.Asked("o", ago(minutes), sure, rest, false)));
  }

  private static Instant ago(double minutes) {
    return AT.minusSeconds(Math.round(60 * minutes));
  }

  /** Its scale shows that now. */
  private void look(double massG) {
    DraftBench.shows(cup, massG);
    new WeighDrained(false).look(draft, cup);
  }

  private Receipt receipt() {
    return DraftBench.last(draft);
  }

  @Test
  void newestWordOfAPersonCounts() throws OrderRefused {
    WeighDrained.take(draft, new Order.Drained("first", "A1", false));
    Receipt taken = WeighDrained.take(draft, new Order.Drained("second", "A1", true));
    assertEquals("taken", taken.outcome());
    assertEquals("second", cup.weight.weighing().asked().orderId());
    assertTrue(cup.weight.weighing().asked().sure());
    assertEquals("first", receipt().id());
    assertEquals("said again by order second", receipt().why());
  }

  /** An earlier reading of four minutes or more, half a gram or less apart. */
  @ParameterizedTest(name = "{0} g after {1} min: {2}")
  @CsvSource({
    "400.4, 4, done",
    "400.6, 4, ''",
    "400.4, 3.9, ''",
    "400.0, 30, done",
    "400.0, 31, ''"
  })
  void weightAtRestIsLearned(double markG, double markMinutes, String outcome) {
    asked(10, markG, markMinutes, false);
    look(400.0);
    if (outcome.isEmpty()) {
      assertTrue(draft.receipts.isEmpty());
      assertTrue(cup.weight.weighing().asked().read());
    } else {
      assertEquals(outcome, receipt().outcome());
      assertEquals(new Receipt.Capacity(400.0, 401.9, "prediction"), receipt().capacity());
      assertEquals(400.0, cup.weight.estimate().capacity().massG());
      assertEquals(Capacity.Teacher.WEIGHING, cup.weight.estimate().capacity().by());
      assertEquals(AT, cup.account.full().at());
      assertNull(cup.weight.weighing().asked());
    }
  }

  @ParameterizedTest(name = "asked {0} min ago: {1}")
  @CsvSource({"30, done", "30.1, refused"})
  void halfAnHourIsWaitedForIt(double minutes, String outcome) {
    asked(minutes, 400.0, 10, false);
    look(400.0);
    assertEquals(outcome, receipt().outcome());
    assertNull(cup.weight.weighing().asked());
  }

  /**
   * A tenth of 323.313 mL, 32.33 g, below a predicted weight; and no cup at capacity keeps less
   * than 0.3 of what it can take: 401.872 - 0.7 x 271.754 = 211.644 g.
   */
  @ParameterizedTest(name = "{0} g, sure {1}: {2}")
  @CsvSource({
    "369.6, false, done",
    "369.5, false, refused",
    "369.5, true, done",
    "211.7, true, done",
    "211.6, true, refused"
  })
  void weightThatIsFarOffIsAskedAbout(double massG, boolean sure, String outcome) {
    asked(10, massG, 5, sure);
    look(massG);
    assertEquals(outcome, receipt().outcome());
    assertEquals(outcome.equals("done"), cup.weight.estimate().capacity().learned());
  }

  /** On a kitchen scale used once a day no second reading comes. */
  @Test
  void onADailyBenchThePersonsWordStandsForTheSecondReading() {
    asked(0, Double.NaN, 0, false);
    DraftBench.shows(cup, 400.0);
    new WeighDrained(true).look(draft, cup);
    assertEquals("done", receipt().outcome());
  }

  /**
   * A learned capacity of 380 g moves the available water by the same grams; what rests beyond the
   * wet line for 6 h cannot be right. A rise or a pass begins the time anew.
   */
  @ParameterizedTest(name = "{0} min beyond its wet line, last pass {1} min ago: doubted {2}")
  @CsvSource({"360, , true", "359, , false", "360, 400, true", "360, 300, false"})
  void weightBeyondTheWetLineForSixHoursIsDoubtOfTheCapacity(
      double minutes, Double passMinutes, boolean doubted) {
    cup.learnCapacity(cup.weight.estimate().capacity().weighed(ago(3000), 300.0), AT);
    DraftBench.weighs(draft, "A1", 400.0);
    cup.weight = cup.weight.with(cup.weight.weighing().beyond(ago(minutes)));
    if (passMinutes != null) {
      cup.doses =
          cup.doses.plus(
              new Given(ago(passMinutes), 30.0, 0.0, null, 30.0, false),
              cup.doses.salts(),
              ago(9000),
              AT);
      // It was seen on the scale since.
      cup.doses = cup.doses.looked();
    }
    new WeighDrained(false).look(draft, cup);
    assertEquals(doubted, cup.weight.estimate().capacity().doubted());
    assertNotNull(cup.weight.weighing().knownSince());
    assertEquals(Duration.ZERO, Duration.between(AT, cup.weight.weighing().knownSince()));
  }
}
