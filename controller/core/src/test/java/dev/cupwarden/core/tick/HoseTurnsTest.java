package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Turns at a hose of V = 12 mL; A1 and B1 may be fed, A2 may not. After u mL more than V / 2 of the
 * old content V² / 4 u = 36 / u mL are left (Hose). The label's feed has 306.44 mg/L N, and a cup
 * that gets none is reckoned 1.3 times that of a pump that no weight has shown.
 */
class HoseTurnsTest {
  private static final String B1 =
      "  B1: {vessel: tall, mix: coir-perlite, plant: elder, stage: toughened, cutting: 14 g}\n";

  private final BenchDraft draft = DraftBench.of("hose: 12 mL\n" + Story.BENCH + B1).draft();

  HoseTurnsTest() {
    draft.cups.keySet().forEach(name -> DraftBench.holds(draft, name, 0.55));
  }

  private Wish wish(String name, double strength) {
    CupDraft cup = draft.cups.get(name);
    cup.wanted = Refill.byHand(Cause.DUE, AT, 90.0, Double.NaN, Set.of(), null);
    return new Wish(
        cup, cup.wanted, new Limits.Allowance(30.0, strength, List.of(), List.of(), null));
  }

  private void full(double strength) {
    draft.hose.content = Hose.full(12.0, strength, "leafy");
  }

  /** Of 30 mL 12 - 36 / 30 = 10.8 are old: s x 10.8 / 30 x 306.44 x 1.3 = 143.4 s, at most 5. */
  @ParameterizedTest(name = "hose at {0}: too strong {1}")
  @CsvSource({"0.0348, false", "0.0349, true"})
  void hoseIsTooStrongForOneThatMayNotBeFed(double strength, boolean tooStrong) {
    full(strength);
    assertEquals(tooStrong, HoseTurns.tooStrong(draft, wish("A2", 0.0)));
    assertFalse(HoseTurns.tooStrong(draft, wish("A1", 0.5)));
    assertTrue(HoseTurns.mayBeFed(draft, wish("A1", 0.5)));
  }

  /**
   * After u mL and a pass of 30: 36 / u - 36 / (u + 30) of old at 0.5, to 0.8 x 5 mg/L: u (u + 30)
   * is 1793 at 29.92 mL, which is 30 in steps of half a millilitre.
   */
  @ParameterizedTest(name = "at most {0} mL: {1} mL")
  @CsvSource({"60, 30", "20, 20"})
  void clearingTakesNoMoreThanItMust(double mostMl, double ml) {
    full(0.5);
    assertEquals(ml, HoseTurns.clearsWithMl(draft, wish("A2", 0.0), mostMl));
  }

  private List<String> order() {
    List<Wish> wishes = List.of(wish("A1", 0.5), wish("A2", 0.0), wish("B1", 0.5));
    return HoseTurns.inOrder(
            draft, wishes, Comparator.comparing((Wish one) -> one.cup().name()).reversed())
        .stream()
        .map(one -> one.cup().name())
        .toList();
  }

  @Test
  void plainWaterComesFirstThroughAClearHose() {
    assertEquals(List.of("A2", "B1", "A1"), order());
    assertTrue(draft.hose.plainFirst);
    assertFalse(draft.hose.closing);
  }

  /** Of two that may be fed the one first that makes up sooner for plain water. */
  @Test
  void hoseThatHoldsFeedIsClearedIntoThoseThatMayBeFed() {
    full(0.5);
    draft.cups.values().forEach(cup -> cup.plant = cup.plant.ofStageSince(AT));
    draft.hose.owedMl.put("B1", 20.0);
    assertEquals(List.of("A1", "B1", "A2"), order());
    assertFalse(draft.hose.plainFirst);
    assertTrue(draft.hose.closing);
  }

  @ParameterizedTest(name = "A2 waits for {0} min: closing {1}")
  @CsvSource({"44, false", "45, true"})
  void whoWaitsForThreeQuartersOfAnHourEndsTheFeeding(long minutes, boolean closing) {
    draft.cups.values().forEach(cup -> cup.plant = cup.plant.ofStageSince(AT));
    draft.hose.waiting.put("A2", AT.minus(Duration.ofMinutes(minutes)));
    order();
    assertEquals(closing, draft.hose.closing);
  }

  private void passOf(CupDraft cup, Duration ago) {
    Given pass = new Given(AT.minus(ago), 30.0, 0.0, null, 60.0, false);
    cup.doses = cup.doses.plus(pass, cup.doses.salts(), AT.minus(Duration.ofDays(9)), null);
  }

  /** Twice the soak of 12 minutes. */
  @ParameterizedTest(name = "{0} s after a pass: {1}")
  @CsvSource({"1439, true", "1440, false"})
  void refillSoaksForTwiceItsSoak(long seconds, boolean soaks) {
    CupDraft cup = wish("A1", 0.5).cup();
    cup.wanted = cup.wanted.plus(30.0);
    passOf(cup, Duration.ofSeconds(seconds));
    assertEquals(soaks, HoseTurns.soaks(draft, cup, true));
    assertFalse(HoseTurns.soaks(draft, cup, false), "it takes feed");
    cup.wanted = null;
    assertFalse(HoseTurns.soaks(draft, cup, true));
  }

  /** A fifth of its dry-back before it is due: 0.50 - 0.2 x 0.45. */
  @ParameterizedTest(name = "B1 at {0} while A1 is fed: {1}")
  @CsvSource({"0.409, false", "0.411, true"})
  void cupThatIsNearlyDueGoesAlong(double depletion, boolean along) {
    CupDraft cup = DraftBench.holds(draft, "B1", depletion);
    assertFalse(HoseTurns.goesAlong(draft, cup), "nobody is fed");
    CupDraft fed = draft.cups.get("A1");
    fed.watering = fed.watering.with(wish("A1", 0.5).wanted().plus(30.0));
    assertEquals(along, HoseTurns.goesAlong(draft, cup));
  }

  @Test
  void noCupGoesAlongWhereNobodyNeedsAClearHose() {
    draft.cups.remove("A2");
    CupDraft fed = draft.cups.get("A1");
    fed.watering = fed.watering.with(wish("A1", 0.5).wanted().plus(30.0));
    assertFalse(HoseTurns.goesAlong(draft, DraftBench.holds(draft, "B1", 0.411)));
  }
}
