package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderReader;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.watering.WaterAccount;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a cup is after an order that sets it up. */
class SetUpCupsTest {
  private static final Instant LONG_AGO = AT.minus(Duration.ofDays(9));

  private final DraftBench bench = new DraftBench();
  private final BenchDraft draft = bench.draft();
  private final CupDraft cup = DraftBench.weighs(draft, "A1", 340.0);

  private Receipt carryOut(Order order) throws OrderRefused {
    return new SetUpCups(bench.frames).carryOut(draft, order);
  }

  private String refusal(Order order) {
    try {
      carryOut(order);
      return "";
    } catch (OrderRefused refused) {
      return refused.getMessage();
    }
  }

  /** Seen again is not seen anew: feed goes on rising. */
  @ParameterizedTest(name = "seen as {0}: since {1}, due at {2}")
  @CsvSource({
    "TOUGHENED, 2027-02-05T12:00:00Z, 0.50",
    "CIRCLING, 2027-02-14T12:00:00Z, 0.40",
    "WHITE, 2027-02-14T12:00:00Z, 0.50"
  })
  void anotherStageHasOtherLinesFromNowOn(RootStage stage, Instant since, double due)
      throws OrderRefused {
    cup.plant = cup.plant.ofStageSince(LONG_AGO);
    assertEquals("done", carryOut(new Order.SeenStage("o", "A1", stage)).outcome());
    assertEquals(stage, cup.setup.stage());
    assertEquals(since, cup.plant.stageSince());
    assertEquals(due, cup.frame.lines().due());
  }

  @Test
  void cupIsAwaySinceItWasSaidFirstAndBackSinceNow() throws OrderRefused {
    cup.presence = cup.presence.takenAway(LONG_AGO);
    carryOut(new Order.Away("o", "A1"));
    assertEquals(LONG_AGO, cup.presence.awaySince());
    carryOut(new Order.Back("o", "A1"));
    assertNull(cup.presence.awaySince());
    assertEquals(AT, cup.presence.backAt());
  }

  /**
   * The short vessel, a cone of 78 mm between 80 and 55 mm: pi 78 (80² + 80 55 + 55²) / 12 = 282.3
   * mL. Nothing that was given or weighed in the other one holds in it; it holds 191.8 mL of the
   * bench's water of 0.3 mS/cm.
   */
  @Test
  void repottedCupBeginsAnewInItsVessel() throws OrderRefused {
    cup.plant = cup.plant.ofStageSince(LONG_AGO);
    cup.doses = cup.doses.with(new SaltBalance(100.0, 50.0));
    cup.account = cup.account.filled(LONG_AGO, 0.0);
    carryOut(new Order.Repot("o", "A1", "short", "coir-perlite"));
    assertEquals(282.3, cup.frame.water().volumeMl(), 0.1);
    assertEquals("short", cup.setup.vessel());
    assertEquals(0.3 * 191.8, cup.doses.salts().msMl(), 0.02);
    assertEquals(0.0, cup.doses.salts().feedMsMl());
    assertEquals(WaterAccount.NONE, cup.account);
    assertEquals(LONG_AGO, cup.plant.stageSince(), "the cutting is the same");
  }

  @ParameterizedTest(name = "{0} with {1}: {2}")
  @CsvSource({"tin, coir-perlite, vessel: \"tin\"", "short, sand, mix: \"sand\""})
  void vesselAndMixAreThoseOfTheBench(String vessel, String mix, String begins) {
    String why = refusal(new Order.Repot("o", "A1", vessel, mix));
    assertTrue(why.startsWith(begins), why);
    assertEquals("tall", cup.setup.vessel());
  }

  private static Order add(String name) throws OrderRefused {
    return OrderReader.read(
        Json.MAPPER
            .createObjectNode()
            .put("id", "o")
            .put("kind", "add")
            .put("cup", name)
            .put("vessel", "short")
            .put("mix", "coir-perlite")
            .put("plant", "elder")
            .put("struck", "2027-02-01")
            .put("stage", "white")
            .put("cutting", "9 g"));
  }

  @Test
  void addedCupStandsOnTheBenchAndANameOnlyOnce() throws OrderRefused {
    assertEquals("done", carryOut(add("B1")).outcome());
    assertEquals(RootStage.WHITE, draft.cups.get("B1").setup.stage());
    assertEquals(0.50, draft.cups.get("B1").frame.lines().due());
    assertEquals("cup: \"B1\" is on this bench already", refusal(add("B1")));
  }

  /** A bench has at most 200. */
  @Test
  void thereIsNoRoomForTheTwoHundredAndFirst() throws OrderRefused {
    for (int cups = draft.cups.size(); cups < 200; cups++) {
      carryOut(add("C" + cups));
    }
    assertEquals(200, draft.cups.size());
    assertTrue(refusal(add("D1")).startsWith("cup: there is no room for \"D1\""));
  }
}
