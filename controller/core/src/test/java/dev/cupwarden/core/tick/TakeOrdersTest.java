package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.season.DayForetold;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What each order does to the draft, and where it begins to be refused. */
class TakeOrdersTest {
  private final DraftBench bench = new DraftBench("hose: 12 mL");

  private static String order(String kind, String fields) {
    return "{\"id\":\"o\",\"kind\":\"%s\"%s%s}"
        .formatted(kind, fields.isEmpty() ? "" : ",", fields.replace('\'', '"'));
  }

  private BenchDraft take(String kind, String fields) {
    BenchDraft draft = bench.draft(order(kind, fields));
    take(draft);
    return draft;
  }

  private void take(BenchDraft draft) {
    new TakeOrders(bench.frames).take(draft, Map.of());
  }

  private static String outcome(BenchDraft draft) {
    return DraftBench.last(draft).outcome();
  }

  private static String why(BenchDraft draft) {
    return DraftBench.last(draft).why();
  }

  @Test
  void sameIdIsTakenOnce() {
    String away = order("away", "'cup':'A1'");
    BenchDraft draft = bench.draft(away, away);
    take(draft);
    assertEquals(
        List.of("done", "refused"), draft.receipts.stream().map(Receipt::outcome).toList());
    assertEquals("an order with this id was given before", why(draft));
    assertEquals(List.of("o"), draft.orderIds);
  }

  /** Good until the moment itself; issued five minutes ahead by another clock. */
  @ParameterizedTest(name = "{0} {1}: {2}")
  @CsvSource({
    "expires, 2027-02-14T12:00:00Z, refused",
    "expires, 2027-02-14T12:00:01Z, done",
    "expires, 2027-02-16T12:00:00Z, done",
    "expires, 2027-02-16T12:00:01Z, refused",
    "issued, 2027-02-14T12:05:00Z, done",
    "issued, 2027-02-14T12:05:01Z, refused"
  })
  void staleOrderIsRefused(String field, String time, String outcome) {
    assertEquals(outcome, outcome(take("back", "'cup':'A1','%s':'%s'".formatted(field, time))));
  }

  /** A hundred and twenty days from noon are 14 June. */
  @ParameterizedTest(name = "hold until {0}: {1}")
  @CsvSource({
    "2027-02-14T12:00:00Z, refused",
    "2027-02-14T12:00:01Z, done",
    "2027-06-14T12:00:00Z, done",
    "2027-06-14T12:00:01Z, refused"
  })
  void holdIsAheadAndNoLongerThanASeason(String until, String outcome) {
    BenchDraft draft = take("hold", "'until':'%s'".formatted(until));
    assertEquals(outcome, outcome(draft));
    assertEquals(outcome.equals("done"), draft.hold != null);
  }

  @Test
  void holdOfOneCupIsItsOwnAndReleaseOfTheBenchEndsAll() {
    BenchDraft draft = take("hold", "'cup':'A1','until':'2027-02-15T12:00:00Z'");
    Hold hold = draft.cups.get("A1").hold;
    assertEquals(AT.plus(Duration.ofDays(1)), hold.until());
    assertNull(draft.hold);
    BenchDraft released = bench.draft(order("release", ""));
    released.hold = hold;
    released.cups.get("A2").hold = hold;
    take(released);
    assertNull(released.hold);
    assertNull(released.cups.get("A2").hold);
  }

  /** Past its dry line at 0.75 it is dry now; at capacity, losing 1 g/h, it is not in an hour. */
  @Test
  void receiptOfAHoldNamesTheCupsThatWillBeDryAndOneOfFeedNone() {
    for (boolean feedOnly : List.of(false, true)) {
      BenchDraft draft =
          take("hold", "'until':'2027-02-14T13:00:00Z','feed_only':%s".formatted(feedOnly));
      DraftBench.holds(draft, "A1", 0.76);
      DraftBench.holds(draft, "A2", 0.0);
      new TakeOrders(bench.frames).addDryCupsToHoldReceipts(draft);
      assertEquals(feedOnly ? List.of() : List.of("A1"), DraftBench.last(draft).dryBefore());
    }
  }

  /** A tenth beyond 12 L. */
  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "'tank':'plain','ml':13200 | done",
        "'tank':'plain','ml':13201 | refused",
        "'tank':'none','ml':100 | refused",
        "'tank':'feed','ml':100,'feed':'other' | refused",
        "'tank':'plain','ml':100,'strength':0.5 | refused",
        "'tank':'plain','ml':100,'feed':'leafy','strength':0.5 | done"
      })
  void tankIsFilledWithWhatItCanHold(String fields, String outcome) {
    assertEquals(outcome, outcome(take("filled", fields)));
  }

  @Test
  void filledTankHoldsWhatWasSaidAndWhatItHeldIsKept() {
    BenchDraft draft = take("filled", "'tank':'feed','ml':3000,'strength':0.25");
    assertEquals(new TankState("leafy", 0.25, 3000.0, AT, null), draft.tanks.get("feed"));
    assertEquals(0.5, draft.done.acts().get(0).fill().before().strength());
    TankState plain = take("filled", "'tank':'feed','ml':3000,'strength':0").tanks.get("feed");
    assertTrue(plain.plain());
    assertNull(plain.feed());
  }

  /** Twice 515.590 mL of mix. */
  @ParameterizedTest(name = "{0} mL by hand: {1}")
  @CsvSource({"1031, done", "1032, refused"})
  void canHoldsNoMoreThanTwiceTheMix(double ml, String outcome) {
    assertEquals(
        outcome, outcome(take("watered", "'cup':'A1','ml':%s,'strength':0".formatted(ml))));
  }

  /**
   * 5.8 g in a US gallon of 3.785412 L are 1.53220 g/L; at half strength 1.25 mS/cm of each make
   * 0.95762, with the water's 0.30 that is 1.25762 mS/cm.
   */
  @Test
  void whatAPersonGaveCountsInLedgerAndSalts() {
    BenchDraft draft = bench.draft(order("watered", "'cup':'A1','ml':100,'strength':0.5"));
    CupDraft cup = DraftBench.holds(draft, "A1", 0.5);
    take(draft);
    Given given = cup.doses.given().get(0);
    double roomMl = 0.45 * DraftBench.A1_AVAILABLE_ML;
    assertEquals(new Given(AT, 100.0, 0.5, "leafy", given.roomMl(), true), given);
    assertEquals(roomMl, given.roomMl(), 0.01);
    assertEquals(125.762, cup.doses.salts().msMl(), 0.001);
    assertEquals(95.762, cup.doses.salts().feedMsMl(), 0.001);
    assertEquals(AT, cup.doses.lastPassAt());
  }

  /** The bench's ceiling is half of the label, its feed tank 0.4. */
  @ParameterizedTest(name = "dose at {0}: {1}")
  @CsvSource({"0.4, taken", "0.45, refused", "0.51, refused"})
  void doseIsNoStrongerThanCeilingAndTank(double strength, String outcome) {
    DraftBench weaker =
        DraftBench.of(
            Story.BENCH.replace("feed: leafy, strength: 0.5", "feed: leafy, strength: 0.4"));
    BenchDraft draft =
        weaker.draft(order("dose", "'cup':'A1','ml':50,'strength':%s".formatted(strength)));
    new TakeOrders(weaker.frames).take(draft, Map.of());
    assertEquals(outcome, outcome(draft));
    assertEquals(
        outcome.equals("taken"), draft.cups.get("A1").refill() != null, "begun where it is taken");
  }

  @Test
  void personsDoseEndsTheProgramsOwnRefillAndNotAnotherPersons() {
    BenchDraft draft = bench.draft(order("dose", "'cup':'A1','ml':50,'strength':0"));
    CupDraft cup = DraftBench.holds(draft, "A1", 0.5);
    cup.watering =
        cup.watering.with(
            Refill.byHand(Cause.DUE, AT.minus(DraftBench.TICK), 90.0, Double.NaN, Set.of(), null)
                .plus(30.0));
    take(draft);
    assertEquals("taken", outcome(draft));
    assertEquals(50.0, cup.refill().leftMl());
    assertEquals(Cause.ORDER, cup.refill().cause());
    assertTrue(cup.watering.halfGiven(), "the other one gave water and is over");
    BenchDraft second =
        bench.draft(
            order("dose", "'cup':'A1','ml':50,'strength':0"),
            order("dose", "'cup':'A1','ml':20,'strength':0").replace("\"o\"", "\"p\""));
    take(second);
    assertEquals("refused", outcome(second));
    assertEquals("order o for this cup is still under way", why(second));
  }

  @Test
  void clearingOneCupEndsItsLatchAndThatOfTheBenchThePumpsToo() {
    Latch latch = new Latch(AlertCode.DOSE_SHORT, AT.minus(DraftBench.TICK), 1.0, 6.0);
    for (boolean whole : List.of(false, true)) {
      BenchDraft draft = bench.draft(order("clear", whole ? "" : "'cup':'A1'"));
      draft.cups.values().forEach(cup -> cup.latch = latch);
      draft.pump = draft.pump.latched(latch).ranThrough(200.0);
      take(draft);
      assertNull(draft.cups.get("A1").latch);
      assertEquals(whole, draft.cups.get("A2").latch == null);
      assertEquals(whole, draft.pump.latch() == null);
      assertEquals(whole ? 0.0 : 200.0, draft.pump.trayMl());
    }
  }

  /** Three times 12 mL of hose; out of the plain tank where none is named. */
  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "'cup':'A1','ml':36 | taken",
        "'cup':'A1','ml':36.1 | refused",
        "'cup':'A1','ml':36,'tank':'none' | refused",
        "'cup':'A9','ml':36 | refused"
      })
  void hoseIsPrimedWithThreeOfItsVolumesAtMost(String fields, String outcome) {
    BenchDraft draft = take("prime", fields);
    assertEquals(outcome, outcome(draft));
    HoseState.Priming priming = new HoseState.Priming("o", "A1", "plain", 36.0, 0.0);
    assertEquals(outcome.equals("taken") ? priming : null, draft.hose.priming);
  }

  @Test
  void alertThatNobodyKnowsCannotBePutOff() {
    BenchDraft draft = take("later", "'alert':'thirst','until':'2027-02-15T12:00:00Z'");
    assertEquals("refused", outcome(draft));
    assertTrue(why(draft).startsWith("alert: "), why(draft));
  }

  @Test
  void retiredCupIsGone() {
    BenchDraft draft = take("retire", "'cup':'A2','because':'rotted'");
    assertEquals("done", outcome(draft));
    assertFalse(draft.cups.containsKey("A2"));
    assertEquals("refused", outcome(take("retire", "'cup':'A9','because':'rotted'")));
  }

  /** It is 14 February on the bench; a forecast goes to the 20th. */
  @ParameterizedTest(name = "{0}: {1} {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "'least_c':1,'most_c':9 | done |",
        "'day':'2027-02-20','least_c':1,'most_c':1,'wind':'light' | done |",
        "'day':'2027-02-13','least_c':1,'most_c':9 | refused | day: 2027-02-13 is over on this"
            + " bench, where it is 2027-02-14",
        "'day':'2027-02-21','least_c':1,'most_c':9 | refused | day: expected one until 2027-02-20,"
            + " which is as far as a forecast goes, not 2027-02-21",
        "'day':'today','least_c':1,'most_c':9 | refused | day: expected a day such as 2027-04-02,"
            + " not \"today\"",
        "'least_c':9,'most_c':1 | refused | most_c: expected no less than least_c, 9.0, not 1.0",
        "'least_c':-61,'most_c':1 | refused | least_c: expected a number from -60.0 to 60.0, not"
            + " -61",
        "'most_c':1 | refused | least_c: expected a number from -60.0 to 60.0, but it is missing",
        "'least_c':1,'most_c':9,'wind':'gale' | refused | wind: expected one of light, strong, not"
            + " \"gale\"",
        "'cup':'A1','least_c':1,'most_c':9 | refused | cup: unknown field of an order of kind"
            + " weather; known: day, least_c, most_c, wind",
      })
  void weatherIsOfTheBenchAndOfADayToCome(String fields, String outcome, String why) {
    BenchDraft draft = take("weather", fields);
    assertEquals(outcome, outcome(draft));
    assertEquals(why, why(draft));
  }

  @Test
  void aLaterWordForTheSameDayTakesThePlaceOfTheFirst() {
    BenchDraft draft =
        bench.draft(
            order("weather", "'day':'2027-02-15','least_c':1,'most_c':9"),
            order("weather", "'least_c':-2,'most_c':3.5,'wind':'strong'").replace("\"o\"", "\"p\""),
            order("weather", "'day':'2027-02-15','least_c':8,'most_c':12")
                .replace("\"o\"", "\"q\""));
    take(draft);
    assertEquals(
        List.of(
            new DayForetold(LocalDate.of(2027, 2, 14), -2.0, 3.5, DayForetold.Wind.STRONG),
            new DayForetold(LocalDate.of(2027, 2, 15), 8.0, 12.0, null)),
        draft.air.foretold().days());
  }
}
