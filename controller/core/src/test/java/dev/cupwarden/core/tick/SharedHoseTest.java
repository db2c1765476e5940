package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a hose of 12 mL brings a cup, by hand: of a pass of 30 mL 10.8 mL stood in it. */
class SharedHoseTest {
  private static final double N_MG_PER_L = 306.44;

  private final DraftBench bench = new DraftBench("hose: 12 mL");
  private final BenchDraft draft = bench.draft();
  private final CupDraft cup = DraftBench.holds(draft, "A1", 0.5);

  private static Refill wanted(Cause cause, double asked) {
    return Refill.byHand(cause, AT, 90.0, asked, Set.of(), null);
  }

  private static Limits.Allowance allowed(double strength, Reason... holding) {
    return new Limits.Allowance(30.0, strength, List.of(holding), List.of(), null);
  }

  /** The bench's ceiling is 0.5; on dry roots half of the label is the most. */
  @ParameterizedTest(name = "{0}, asked {1}, limits leave {2}: {3}")
  @CsvSource({
    "DUE, NaN, 0.4, 0.4",
    "DUE, NaN, 0.9, 0.5",
    "ORDER, 0.2, 0.9, 0.2",
    "FED_RESCUE, NaN, 0.9, 0.5",
    "DUE, NaN, 0, 0"
  })
  void mostThatMayLeaveTheDripEnd(Cause cause, double asked, double left, double most) {
    assertEquals(most, SharedHose.most(draft, wanted(cause, asked), allowed(left)));
  }

  @Test
  void onDryRootsHalfOfTheLabelIsTheMostWhateverTheCeiling() {
    BenchDraft strong = DraftBench.of(Story.BENCH.replace("ceiling: 0.5", "ceiling: 1.0")).draft();
    assertEquals(0.5, SharedHose.most(strong, wanted(Cause.FED_RESCUE, Double.NaN), allowed(0.9)));
    assertEquals(0.9, SharedHose.most(strong, wanted(Cause.DUE, Double.NaN), allowed(0.9)));
  }

  /**
   * Full of feed at half strength 0.5 x 10.8 / 30 x 306.44 = 55.16 mg/L come, for one that gets
   * none 1.3 times that, as no weight has shown the pump yet.
   */
  @Test
  void factsAreWhatTheNextPassWouldCarry() {
    draft.hose.content = Hose.full(12.0, 0.5, "leafy");
    draft.hose.waiting.put("A1", AT.minus(Duration.ofMinutes(20)));
    Case.HoseFacts unfed =
        SharedHose.facts(draft, cup, wanted(Cause.DUE, Double.NaN), allowed(0.0));
    assertEquals(1.3 * 0.18 * N_MG_PER_L, unfed.carriesNMgPerL(), 0.02);
    assertEquals(5.0, unfed.mostNMgPerL());
    assertEquals(20.0, unfed.waitedMin());
    assertEquals(
        Case.HoseFacts.CLEAR,
        SharedHose.facts(draft, cup, wanted(Cause.DUE, Double.NaN), allowed(0.2)));
    Case.HoseFacts weaker =
        SharedHose.facts(draft, cup, wanted(Cause.DUE, Double.NaN), allowed(0.1));
    assertEquals(0.18 * N_MG_PER_L, weaker.carriesNMgPerL(), 0.02);
    assertEquals(0.1 * N_MG_PER_L, weaker.mostNMgPerL(), 0.01);
  }

  /** Feed waits while plain water is given; a person and a dry cup do not. */
  @ParameterizedTest(name = "{0}: waits {1}")
  @CsvSource({"DUE, true", "ORDER, false", "RESCUE, false"})
  void feedWaitsForPlainWater(Cause cause, boolean waits) {
    draft.hose.plainFirst = true;
    Case.HoseFacts facts = SharedHose.facts(draft, cup, wanted(cause, Double.NaN), allowed(0.5));
    assertEquals(waits, !facts.equals(Case.HoseFacts.CLEAR));
  }

  @Test
  void whoWaitsForTheHoseAloneIsNotedSinceTheFirstTime() {
    Reason hose = new Reason("hose", 9.0, 5.0, "mg/L N");
    Instant first = AT.minus(Duration.ofMinutes(15));
    draft.hose.waiting.put("A1", first);
    cup.allowance = allowed(0.0, hose);
    SharedHose.note(draft, cup);
    assertEquals(first, draft.hose.waiting.get("A1"));
    cup.allowance = allowed(0.0, hose, new Reason("window", 90.0, 0.0, "min"));
    SharedHose.note(draft, cup);
    assertFalse(draft.hose.waiting.containsKey("A1"));
    CupDraft other = draft.cups.get("A2");
    other.allowance = allowed(0.0, hose);
    SharedHose.note(draft, other);
    assertEquals(AT, draft.hose.waiting.get("A2"));
  }

  /** Beyond what the cup may have, and beyond 5 mg/L: 306.44 x 0.0164 is 5.03. */
  @ParameterizedTest(name = "{0} of the label, at most {1}: told {2}")
  @CsvSource({"0.0164, 0, true", "0.0163, 0, false", "0.2, 0.2, false", "0.201, 0.2, true"})
  void whatACupGotThatItShouldNotIsTold(double strength, double most, boolean told) {
    draft.hose.content = Hose.full(12.0, 0.0, null);
    Hose.Flow flow = new Hose.Flow(draft.hose.content, 30.0, 30.0 * strength, "leafy");
    SharedHose.tell(draft, cup, most, flow);
    if (told) {
      HoseState.Carried carried = draft.hose.told;
      assertEquals("A1", carried.cup());
      assertEquals(strength * N_MG_PER_L, carried.nMgPerL(), 0.01);
    } else {
      assertNull(draft.hose.told);
    }
  }

  /** A pass of 30 mL, 10 of them feed, that came out that strong. */
  private void owe(double meant, double strength) {
    AllowedPass pass =
        Limits.allow(
            "A1", Cause.DUE, allowed(1.0), draft.supply(), new TankDraw(20.0, 10.0, strength));
    SharedHose.owe(draft, cup, meant, pass);
  }

  /** 30 mL at 0.2 - 0.1; at most half of 0.45 x 271.754 mL, a full refill at the ceiling. */
  @Test
  void whatItWasMeantToGetAndHasNotIsOwed() {
    owe(0.2, 0.1);
    assertEquals(3.0, SharedHose.owedMl(draft, cup), 1e-9);
    owe(0.2, 0.3);
    assertEquals(0.0, SharedHose.owedMl(draft, cup), 1e-9);
    draft.hose.owedMl.put("A1", 60.0);
    owe(0.5, 0.1);
    assertEquals(0.5 * 0.45 * DraftBench.A1_AVAILABLE_ML, SharedHose.owedMl(draft, cup), 1e-3);
  }

  /**
   * On the first day of its stage A1 is meant 75 of the label's 306.44 mg/L N: 0.24475. A pass of
   * plain water lacks 7.342 mL, made up by 0.5 - 0.24475 of each further one: 28.766 mL, 0.1058 of
   * 271.754 mL.
   */
  @Test
  void plainWaterIsMadeUpForWithinSoMuchMore() {
    cup.plant = cup.plant.ofStageSince(AT);
    assertEquals(0.1058, SharedHose.makesUpWithin(draft, cup), 1e-4);
    draft.hose.owedMl.put("A1", 7.342);
    assertEquals(0.2117, SharedHose.makesUpWithin(draft, cup), 1e-4);
    draft.hose.owedMl.put("A1", -7.4);
    assertEquals(0.0, SharedHose.makesUpWithin(draft, cup));
    assertTrue(SharedHose.owedMl(draft, cup) < 0.0);
  }
}
