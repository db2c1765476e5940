package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.state.DoneActs;
import dev.cupwarden.core.state.TankState;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is taken back, and what holds again, in figures. */
class ForgetTest {
  private static final Instant HOUR_AGO = AT.minus(Duration.ofHours(1));

  private final BenchDraft draft = new DraftBench().draft();
  private final CupDraft cup = DraftBench.holds(draft, "A1", 0.3);

  private String forget(String order) {
    try {
      return Forget.carryOut(draft, new Order.Forget("f", order)).why();
    } catch (OrderRefused refused) {
      return "refused: " + refused.getMessage();
    }
  }

  private void watered(Instant at) {
    Given given = new Given(at, 100.0, 0.5, "leafy", 60.0, true);
    cup.give(given, 1.25762, 0.30, Duration.ofDays(14));
    draft.done =
        draft.done.watered(
            "w", at, "A1", new DoneActs.Water(given, 1.25762, 0.30, AT.minus(Duration.ofDays(2))));
  }

  @Test
  void waterThatWasToldByMistakeCountsNoMore() {
    watered(HOUR_AGO);
    assertEquals(125.762, cup.doses.salts().msMl(), 1e-9);
    assertEquals("100.0 mL at strength 0.50 no longer count as given to \"A1\"", forget("w"));
    assertEquals(0.0, cup.doses.salts().msMl(), 1e-9);
    assertTrue(cup.doses.given().isEmpty());
    assertEquals(AT.minus(Duration.ofDays(2)), cup.doses.lastPassAt());
    assertTrue(forget("w").startsWith("refused"), "once");
  }

  /** Kept for a day. */
  @ParameterizedTest(name = "told {0} s ago: {1}")
  @CsvSource({"86400, 100.0 mL", "86401, refused"})
  void withinADay(long seconds, String begins) {
    watered(AT.minusSeconds(seconds));
    assertTrue(forget("w").startsWith(begins));
  }

  /** 3000 mL were told of a tank that held 500, and 200 drawn since. */
  @Test
  void tankHoldsWhatItHeldLessWhatWasDrawn() {
    TankState before = new TankState("leafy", 0.25, 500.0, HOUR_AGO, null);
    draft.done = draft.done.filled("t", HOUR_AGO, "feed", new DoneActs.Fill(before, 3_000.0));
    draft.tanks.put("feed", new TankState("leafy", 0.5, 2_800.0, HOUR_AGO, null));
    assertEquals(
        "the tank \"feed\" is believed to hold 300 mL of leafy at strength 0.25 again; 200 mL drawn"
            + " since stay counted as what was told of them",
        forget("t"));
    assertEquals(new TankState("leafy", 0.25, 300.0, HOUR_AGO, null), draft.tanks.get("feed"));
  }

  @Test
  void capacityIsWhatWasBelievedBefore() {
    Capacity before = cup.weight.estimate().capacity();
    draft.done = draft.done.drained("d", HOUR_AGO, "A1", new DoneActs.Weight(before, 0.1));
    cup.learnCapacity(before.weighed(HOUR_AGO, 380.0), HOUR_AGO);
    assertEquals(380.0, cup.weights.capacityG());
    assertEquals("\"A1\" is believed to weigh 401.9 g at capacity again (predicted)", forget("d"));
    assertEquals(before, cup.weight.estimate().capacity());
  }

  @Test
  void whatWasToldAnewIsTakenBackFirst() {
    Capacity before = cup.weight.estimate().capacity();
    DoneActs.Weight weight = new DoneActs.Weight(before, 0.1);
    draft.done = draft.done.drained("d1", HOUR_AGO, "A1", weight).drained("d2", AT, "A1", weight);
    assertEquals(
        "refused: order: \"A1\" was told anew by order \"d2\": take that one back first",
        forget("d1"));
  }

  @Test
  void drainedThatWaitsForAWeightWaitsNoMore() throws OrderRefused {
    WeighDrained.take(draft, new Order.Drained("d", "A1", false));
    assertEquals("order d waits no more; nothing changed", forget("d"));
    assertNull(cup.weight.weighing().asked());
    Receipt dropped = draft.receipts.get(0);
    assertEquals("d", dropped.id());
    assertEquals("taken back by order f", dropped.why());
  }
}
