package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.state.TankState;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Water to waste and into a jug, in passes of 30 mL through a hose of 12 mL. */
class PastCupsTest {
  private final DraftBench bench = new DraftBench("hose: 12 mL\ndrain: waste");
  private final List<AllowedPass> passes = new ArrayList<>();

  private static void holds(BenchDraft draft, String tank, double ml) {
    draft.tanks.computeIfPresent(
        tank, (name, was) -> new TankState(was.feed(), was.strength(), ml, null, null));
  }

  /** Full of feed at 0.5, of 30 mL 10.8 were old: strength 0.18. */
  @ParameterizedTest(name = "{0} mL of plain water: {1}")
  @CsvSource({"30, true", "29.9, false"})
  void onePassOfPlainWaterGoesToWaste(double ml, boolean goes) {
    BenchDraft draft = bench.draft();
    holds(draft, "plain", ml);
    draft.hose.content = Hose.full(12.0, 0.5, "leafy");
    assertEquals(goes, PastCups.rinse(draft, bench.facts(draft), passes));
    assertEquals(goes ? 1 : 0, passes.size());
    if (goes) {
      assertEquals(0.18, passes.get(0).strength(), 1e-9);
      assertEquals(0.0, draft.tanks.get("plain").leftMl());
      assertEquals(0.5 * 1.2, draft.hose.content.labelMl(), 1e-9, "36 / 30 mL are left");
    }
  }

  @Test
  void nothingGoesToWasteOverALatchOrWithoutAWay() {
    BenchDraft draft = bench.draft();
    draft.pump = draft.pump.latched(new Latch(AlertCode.PUMP_RUNNING_ON, AT, 9.0, 3.0));
    assertFalse(PastCups.rinse(draft, bench.facts(draft), passes));
    BenchDraft noWay = new DraftBench("hose: 12 mL").draft();
    assertFalse(PastCups.rinse(noWay, bench.facts(noWay), passes));
    assertTrue(passes.isEmpty());
  }

  private BenchDraft priming(double leftMl, double givenMl) {
    BenchDraft draft = bench.draft();
    draft.hose.priming = new HoseState.Priming("o", "A1", "plain", leftMl, givenMl);
    draft.cups.get("A1").presence = draft.cups.get("A1").presence.takenAway(AT);
    return draft;
  }

  private void prime(BenchDraft draft) {
    PastCups.prime(draft, bench.facts(draft), passes);
  }

  /** 36 mL are a pass of 30 and one of 6. */
  @Test
  void jugIsFilledPassByPass() {
    BenchDraft draft = priming(36.0, 0.0);
    holds(draft, "plain", 1_000.0);
    prime(draft);
    assertEquals(30.0, passes.get(0).plainMl());
    assertEquals("A1", passes.get(0).cup());
    assertEquals(6.0, draft.hose.priming.leftMl());
    assertEquals(30.0, draft.hose.priming.givenMl());
    assertEquals(970.0, draft.tanks.get("plain").leftMl());
    prime(draft);
    assertEquals(6.0, passes.get(1).plainMl());
    assertNull(draft.hose.priming);
    assertEquals("done", DraftBench.last(draft).outcome());
    assertEquals("36.0 mL given", DraftBench.last(draft).why());
  }

  @Test
  void feedFillsTheHoseFromItsTank() {
    BenchDraft draft = priming(30.0, 0.0);
    draft.hose.priming = new HoseState.Priming("o", "A1", "feed", 30.0, 0.0);
    prime(draft);
    assertEquals(30.0, passes.get(0).feedMl());
    assertEquals(0.5 * 10.8, draft.hose.content.labelMl(), 1e-9, "12 - 36 / 30 mL stay in it");
  }

  @Test
  void cupThatStandsThereIsNoJug() {
    BenchDraft draft = priming(36.0, 0.0);
    draft.cups.get("A1").presence = draft.cups.get("A1").presence.putBack(AT);
    DraftBench.holds(draft, "A1", 0.5);
    prime(draft);
    assertEquals("refused", DraftBench.last(draft).outcome());
    assertTrue(DraftBench.last(draft).why().startsWith("cup: \"A1\" stands on the bench"));
    assertNull(draft.hose.priming);
  }

  @ParameterizedTest(name = "{0} mL given before: {1}")
  @CsvSource({"0, refused", "30, done"})
  void tankThatIsTooEmptyEndsIt(double givenMl, String outcome) {
    BenchDraft draft = priming(36.0, givenMl);
    holds(draft, "plain", 29.9);
    prime(draft);
    assertEquals(outcome, DraftBench.last(draft).outcome());
    assertTrue(passes.isEmpty());
    assertEquals(
        givenMl > 0.0
            ? "ended early: tank: \"plain\" does not hold so much, 30.0 mL given"
            : "tank: \"plain\" does not hold so much",
        DraftBench.last(draft).why());
  }
}
