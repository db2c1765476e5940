package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One round at a hose of 12 mL that holds feed: who gets the water that clears it. */
class HoseRoundTest {
  private static BenchDraft dirty(DraftBench bench) {
    BenchDraft draft = bench.draft();
    draft.cups.values().forEach(cup -> cup.plant = cup.plant.ofStageSince(AT));
    draft.hose.content = Hose.full(12.0, 0.5, "leafy");
    return draft;
  }

  private static Wish wish(DraftBench bench, BenchDraft draft, String name) {
    CupDraft cup = draft.cups.get(name);
    cup.wanted = Refill.byHand(Cause.DUE, AT, 90.0, Double.NaN, Set.of(), null);
    Case.BenchFacts facts = bench.facts(draft);
    return new Wish(cup, cup.wanted, PutOutPasses.judge(draft, cup, cup.wanted, facts));
  }

  private static List<AllowedPass> put(DraftBench bench, BenchDraft draft, String name) {
    List<AllowedPass> passes = new ArrayList<>();
    new HoseRound(bench.putOutPasses(), draft, DraftBench.OPEN, passes)
        .put(List.of(wish(bench, draft, name)));
    return passes;
  }

  /** To waste first where there is a way, a pass of 30 mL at a time. */
  @Test
  void hoseIsClearedToWasteBeforeOneThatMayNotBeFed() {
    DraftBench bench = new DraftBench("hose: 12 mL\ndrain: waste");
    BenchDraft draft = dirty(bench);
    DraftBench.holds(draft, "A1", 0.0);
    DraftBench.holds(draft, "A2", 0.65);
    List<AllowedPass> passes = put(bench, draft, "A2");
    assertEquals("waste", passes.get(0).cup());
    assertEquals("flush", passes.get(0).why());
    assertEquals(30.0, passes.get(0).plainMl());
    assertEquals("A2", passes.get(passes.size() - 1).cup());
    assertTrue(
        passes.get(passes.size() - 1).strength() * 306.44 * 1.3 <= 5.0, "clear enough for it");
  }

  /**
   * Without one, 30 mL into the cup that may be fed and has room: as much as makes it fit
   * (HoseTurnsTest), since A2's pass is smaller than that.
   */
  @Test
  void hoseIsClearedIntoACupThatMayBeFed() {
    DraftBench bench = new DraftBench("hose: 12 mL");
    BenchDraft draft = dirty(bench);
    DraftBench.holds(draft, "A1", 0.40);
    DraftBench.holds(draft, "A2", 0.65);
    List<AllowedPass> passes = put(bench, draft, "A2");
    assertEquals("A1", passes.get(0).cup());
    assertEquals(0.0, passes.get(0).feedMl());
    assertEquals("A2", passes.get(1).cup());
    assertTrue(draft.hose.closing);
  }

  @Test
  void withNowhereToGoItWaitsForTheHose() {
    DraftBench bench = new DraftBench("hose: 12 mL");
    BenchDraft draft = dirty(bench);
    DraftBench.holds(draft, "A1", 0.0);
    CupDraft waits = DraftBench.holds(draft, "A2", 0.65);
    assertTrue(put(bench, draft, "A2").isEmpty());
    assertEquals("hose", waits.allowance.holding().get(0).code());
    assertEquals(AT, draft.hose.waiting.get("A2"));
  }

  /** 30 mL, or a tenth of 323.313 mL, times what its last passes left of it; 5 mL at least. */
  @ParameterizedTest(name = "{0} of a pass: {1} mL")
  @CsvSource({"1.0, 30", "0.5, 15", "0.25, 7.5", "0.1, 5"})
  void usualPassOfACup(double part, double ml) {
    BenchDraft draft = new DraftBench("hose: 12 mL").draft();
    CupDraft cup = DraftBench.holds(draft, "A1", 0.5);
    cup.witness = cup.witness.with(new Soaking(part, 0));
    assertEquals(ml, HoseRound.passMl(draft, cup));
  }

  /** One pass to one that has to dry back then; all its room to one in a refill. */
  @Test
  void roomForClearingTheHose() {
    DraftBench bench = new DraftBench("hose: 12 mL");
    BenchDraft draft = bench.draft();
    Case.BenchFacts facts = bench.facts(draft);
    CupDraft cup = DraftBench.holds(draft, "A1", 0.5);
    assertEquals(30.0, HoseRound.roomMl(draft, cup, facts));
    cup.watering =
        cup.watering.with(Refill.byHand(Cause.DUE, AT, 90.0, Double.NaN, Set.of(), null));
    assertEquals(0.45 * DraftBench.A1_AVAILABLE_ML, HoseRound.roomMl(draft, cup, facts), 0.01);
    DraftBench.holds(draft, "A1", 0.06);
    assertEquals(0.0, HoseRound.roomMl(draft, cup, facts), "2.7 mL are not worth a valve");
    assertEquals(
        0.0,
        HoseRound.roomMl(draft, DraftBench.holds(draft, "A2", 0.6), facts),
        "it may not be fed");
  }
}
