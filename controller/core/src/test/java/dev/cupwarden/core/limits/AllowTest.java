package dev.cupwarden.core.limits;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.watering.Cause;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The last door before the pump: 30 mL at strength 0.25 at most. */
class AllowTest {
  private static final Supply SUPPLY = new Supply("plain", 900.0, "feed", "leafy", 900.0, 0.5);
  private static final Limits.Allowance LEFT =
      new Limits.Allowance(30.0, 0.25, List.of(), List.of(), null);

  private static AllowedPass allow(Limits.Allowance left, TankDraw draw) {
    return Limits.allow("A1", Cause.FORECAST, left, SUPPLY, draw);
  }

  @Test
  void passWithinWhatIsLeftGoesOutAsItWasDrawn() {
    AllowedPass pass = allow(LEFT, new TankDraw(15.0, 15.0, 0.25));
    assertEquals("A1", pass.cup());
    assertEquals("plain", pass.plain().tank());
    assertEquals("feed", pass.feed().tank());
    assertEquals(15.0, pass.plainMl());
    assertEquals(15.0, pass.feedMl());
    assertEquals(30.0, pass.totalMl());
    assertEquals(0.25, pass.strength());
    assertEquals("forecast", pass.why());
  }

  @ParameterizedTest(name = "{0} + {1} mL at {2}")
  @CsvSource({
    "0, 0, 0",
    "30.1, 0, 0",
    "15.1, 15.0, 0.25",
    "15, 15, 0.26",
    "20, -20, 0",
    "30.0000001, 0, 0"
  })
  void beyondItIsADefectAndNoWater(double plainMl, double feedMl, double strength) {
    TankDraw draw = new TankDraw(plainMl, feedMl, strength);
    assertThrows(IllegalStateException.class, () -> allow(LEFT, draw));
  }

  @Test
  void nothingGoesOutWhereALimitHolds() {
    Reason held = new Reason("soak", 1.0, 12.0, "min");
    Limits.Allowance none = new Limits.Allowance(30.0, 0.25, List.of(held), List.of(), null);
    TankDraw draw = new TankDraw(30.0, 0.0, 0.0);
    assertThrows(IllegalStateException.class, () -> allow(none, draw));
  }

  @Test
  void plainWaterIsHeldByNoStrength() {
    Limits.Allowance plain = new Limits.Allowance(30.0, 0.0, List.of(), List.of(), null);
    assertEquals(30.0, allow(plain, new TankDraw(30.0, 0.0, 0.0)).totalMl());
    assertThrows(IllegalStateException.class, () -> allow(plain, new TankDraw(29.0, 1.0, 0.01)));
  }

  /** The strictest of all: 20 mL of room to the wet line, 25 mL to the refill line. */
  @Test
  void strictestOfAllWins() {
    CaseDraft draft = new CaseDraft();
    draft.roomMl = 25.0;
    draft.roomToWetMl = 20.0;
    draft.given("PT240H", 190.0, 1.0, 500.0);
    Limits.Allowance left = Limits.judge(draft.made());
    assertEquals(20.0, left.ml());
    assertEquals(10.0 / 30.0, left.strength(), 1e-9, "of 200 mL 190 were fed");
    assertEquals("ledger", left.strengthBy().code());
  }

  /** Without plain water a tank of feed counts only as far as the cup may have it. */
  @Test
  void strongestFeedIsThatOfTheStrictestLimitOrTheCeiling() {
    CaseDraft draft = new CaseDraft();
    assertEquals(0.5, Limits.strongest(draft.made()), 1e-9, "the bench's ceiling");
    draft.given("PT240H", 190.0, 1.0, 500.0);
    assertEquals(10.0 / 30.0, Limits.strongest(draft.made()), 1e-9);
    draft.cause = null;
    draft.depletion = 0.9;
    assertEquals(0.0, Limits.strongest(draft.made()), 1e-9, "dry roots");
    draft.cause = Cause.FED_RESCUE;
    assertEquals(10.0 / 30.0, Limits.strongest(draft.made()), 1e-9, "but for a rescue");
  }

  @Test
  void feedIsHeldBackOnlyFromWhoIsToGetWater() {
    CaseDraft draft = new CaseDraft();
    draft.saltMsPerCm = 3.0;
    assertEquals(1, Limits.judge(draft.made()).feedHolding().size());
    draft.cause = null;
    assertEquals(List.of(), Limits.judge(draft.made()).feedHolding());
  }

  @Test
  void leastPassThatIsLeftIsWorthAValve() {
    CaseDraft draft = new CaseDraft();
    draft.roomToWetMl = 5.0;
    assertEquals(5.0, Limits.judge(draft.made()).ml());
    assertEquals(List.of(), Limits.judge(draft.made()).holding());
  }

  @Test
  void noCupIsHeldByTheHardwareAlone() {
    Case.CupFacts none = Case.CupFacts.ofNoCup();
    assertEquals(0.0, none.roomMl());
    assertEquals(Case.HoseFacts.CLEAR, none.hose());
    assertEquals(FeedStrength.UNBOUND, none.mostFeed().get());
  }
}
