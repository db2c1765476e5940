package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup of 100 mL to its dry end, due at 0.5 and refilled to 0.1; looked at every half hour. */
class WatchedCupTest {
  private static final Instant MONDAY = Instant.parse("2027-02-15T08:00:00Z");
  private static final CupLines LINES = new CupLines(0.0, 0.1, 0.5, 0.7);
  private final WatchedCup cup = new WatchedCup();

  private void look(double hours, double depletion, boolean wants, WatchedCup.Can... cans) {
    cup.see(
        new WatchedCup.Moment(
            at(hours),
            depletion,
            LINES,
            100.0 * (depletion - 0.1),
            wants ? new WatchedCup.Wish("due", 0.0) : null,
            wants ? List.of() : List.of("window"),
            null),
        List.of(cans));
  }

  private static Instant at(double hours) {
    return MONDAY.plus(Duration.ofMinutes(Math.round(60 * hours)));
  }

  private WatchedCup.Watering only() {
    assertEquals(1, cup.waterings().size(), cup.waterings()::toString);
    return cup.waterings().get(0);
  }

  @Test
  void withinHalfADayAndAQuarterOfTheAmountIsAlike() {
    look(0, 0.51, true);
    look(11.5, 0.55, true);
    look(12, 0.10, false, new WatchedCup.Can(at(12), 45));
    look(13.5, 0.11, false);
    WatchedCup.Watering one = only();
    assertEquals(WatchedCup.Beside.ALIKE, one.beside());
    assertEquals(MONDAY, one.would().at());
    assertEquals(45.0, one.wouldMl(), 1e-9, "100 mL of 0.55 less 0.10");
    assertEquals(0.0, one.moreMl(), 1e-9);
    assertEquals(0.55, one.driest());
    assertFalse(one.differs());
  }

  @Test
  void aMinuteLaterItIsLater() {
    look(0, 0.51, true);
    look(12.5, 0.55, true, new WatchedCup.Can(at(12.02), 45));
    assertEquals(WatchedCup.Beside.LATER, only().beside());
    assertTrue(only().differs());
  }

  @Test
  void beforeTheCupIsDueItIsEarlierAndPastItsDueLineHeld() {
    look(0, 0.30, false);
    look(0.5, 0.10, false, new WatchedCup.Can(at(0.5), 20));
    assertEquals(WatchedCup.Beside.EARLIER, only().beside());
    look(20, 0.52, false);
    look(20.5, 0.10, false, new WatchedCup.Can(at(20.5), 42));
    assertEquals(WatchedCup.Beside.HELD, cup.waterings().get(1).beside());
    assertEquals(List.of("window"), cup.waterings().get(1).before().heldBy());
  }

  @Test
  void portionsWithinAnHourAreOneWateringAndNothingIsAskedMeanwhile() {
    look(0, 0.55, true);
    look(0.5, 0.53, true, new WatchedCup.Can(at(0.5), 2));
    look(1, 0.30, false, new WatchedCup.Can(at(1), 23));
    look(2.5, 0.30, false);
    assertEquals(25.0, only().handMl());
    assertEquals(-20.0, only().moreMl(), 1e-9);
    assertTrue(only().differs(), "20 mL less than 45 mL is more than a quarter of them");
  }

  @Test
  void wetterThanItsWetLineOnceDrained() {
    look(0, 0.55, true);
    look(0.5, -0.20, false, new WatchedCup.Can(at(0.5), 75));
    assertFalse(only().tooWet(), "it still drains");
    look(2, -0.01, false);
    assertTrue(only().tooWet());
  }

  @Test
  void whatNobodyGaveStandsOpen() {
    look(0, 0.55, true);
    look(30, 0.72, true);
    WatchedCup.Watering open = only();
    assertEquals(WatchedCup.Beside.NOT_GIVEN, open.beside());
    assertNull(open.handAt());
    assertEquals(0.72, open.driest());
    assertEquals(45.0, open.wouldMl(), 1e-9);
  }

  @Test
  void atItsDueLineItIsNotDueAndAtItsWetLineNotTooWet() {
    look(0, 0.50, false);
    look(0.5, 0.10, false, new WatchedCup.Can(at(0.5), 50));
    look(2, 0.00, false);
    assertEquals(WatchedCup.Beside.EARLIER, only().beside());
    assertFalse(only().tooWet());
  }

  /** A quarter of 40 mL is 10 mL; of 10 mL it is less than 5 mL, which are alike. */
  @ParameterizedTest(name = "{0} mL wanted, {1} mL given: differs {2}")
  @CsvSource({
    "40, 50, false",
    "40, 50.1, true",
    "40, 30, false",
    "40, 29.9, true",
    "10, 15, false",
    "10, 15.1, true"
  })
  void amountsThatAreAlike(double wouldMl, double handMl, boolean differs) {
    WatchedCup.Moment then =
        new WatchedCup.Moment(MONDAY, 0.5, LINES, wouldMl, null, List.of(), null);
    WatchedCup.Watering one =
        new WatchedCup.Watering(
            WatchedCup.Beside.ALIKE, then, then, MONDAY, handMl, Double.NaN, false);
    assertEquals(differs, one.differs());
  }
}
