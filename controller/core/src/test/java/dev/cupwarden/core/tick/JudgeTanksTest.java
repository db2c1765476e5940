package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.alerts.AlertBook;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.state.TankState;
import java.time.Instant;
import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Tanks of 12 L of plain water and 4 L of feed, and passes of 30 mL. */
class JudgeTanksTest {
  private final DraftBench bench = new DraftBench();

  private Optional<AlertNotice> told(BenchDraft draft, String code) {
    Conditions conditions = new Conditions(Collections.emptySortedMap());
    JudgeTanks.judge(draft, conditions);
    return DraftBench.told(draft, conditions, code);
  }

  private BenchDraft holding(String tank, double ml, Instant mixedAt) {
    BenchDraft draft = bench.draft();
    draft.tanks.computeIfPresent(
        tank, (name, was) -> new TankState(was.feed(), was.strength(), ml, mixedAt, null));
    return draft;
  }

  /** A tenth of its size. */
  @ParameterizedTest(name = "{0}: {1} mL: low {2}")
  @CsvSource({"plain, 1200, false", "plain, 1199.9, true", "feed, 400, false", "feed, 399.9, true"})
  void lowBelowATenth(String tank, double ml, boolean low) {
    Optional<AlertNotice> notice = told(holding(tank, ml, null), "tank-low");
    assertEquals(low, notice.isPresent());
    if (low) {
      assertEquals(tank, notice.get().tank());
      assertEquals(ml, notice.get().value());
      assertEquals("Fill the tank “%s”, and say so.".formatted(tank), notice.get().whatToDo());
      assertEquals(0, notice.get().severity());
    }
  }

  /** Two litres lie below the float, and feed has a scale: a tenth of what is in it, and more. */
  @ParameterizedTest(name = "{0}: {1} mL: low {2}")
  @CsvSource({"plain, 3200, false", "plain, 3199.9, true", "feed, 400, false", "feed, 399.9, true"})
  void lowBelowATenthAboveTheFloat(String tank, double ml, boolean low) {
    String board =
        """
        board:
          bus: 1
          scales:
            t1: {chip: nau7802, address: 0x2A, counts_per_g: 1000, zero: 0}
          tanks:
            plain: {gpio: 6, at: 2 L}
            feed: {scale: t1, empty: 200 g}
          pump: {gpio: 17, rate: 1.5 mL/s}
        """;
    BenchDraft draft = new DraftBench(board).draft();
    draft.tanks.computeIfPresent(
        tank, (name, was) -> new TankState(was.feed(), was.strength(), ml, null, null));
    assertEquals(low, told(draft, "tank-low").isPresent());
  }

  /** Cleared beyond half as much again: 1800 mL. */
  @ParameterizedTest(name = "{0} mL: {1}")
  @CsvSource({"1800, ''", "1800.1, cleared"})
  void lowUntilItIsFilledAgain(double ml, String state) {
    BenchDraft draft = holding("plain", ml, null);
    draft.alerts =
        new TreeMap<>(Map.of("tank-low/tank:plain", DraftBench.stands("tank-low", null, "plain")));
    Conditions conditions = new Conditions(draft.alerts);
    JudgeTanks.judge(draft, conditions);
    String told =
        AlertBook.judge(draft.alerts, conditions, AT, draft.cups.keySet(), DraftBench.TICK)
            .changes()
            .stream()
            .map(AlertNotice::state)
            .findFirst()
            .orElse("");
    assertEquals(state, told);
  }

  /** Less than one pass; feed is needed where a cup's stage takes it. */
  @ParameterizedTest(name = "{0}: {1} mL, A1 {2}: {3}")
  @CsvSource({
    "plain, 30, toughened, ''",
    "plain, 29.9, toughened, The tank “plain” is empty: fill it",
    "feed, 29.9, toughened, The tank “feed” is empty: fill it",
    "feed, 29.9, white, ''"
  })
  void emptyBelowOnePassWhereACupWantsIt(String tank, double ml, String stage, String begins) {
    DraftBench other = DraftBench.of(Story.BENCH.replace("stage: toughened", "stage: " + stage));
    BenchDraft draft = other.draft();
    draft.tanks.computeIfPresent(
        tank, (name, was) -> new TankState(was.feed(), was.strength(), ml, null, null));
    Optional<AlertNotice> notice = told(draft, "tank-empty");
    assertEquals(!begins.isEmpty(), notice.isPresent());
    notice.ifPresent(one -> assertEquals(begins, one.whatToDo().substring(0, begins.length())));
    notice.ifPresent(one -> assertEquals(30.0, one.threshold()));
    if (begins.isEmpty() && ml < 30.0) {
      AlertNotice low = told(draft, "tank-low").get();
      assertEquals("The tank “%s” is empty: fill it, and say so.".formatted(tank), low.whatToDo());
      assertEquals(1, low.severity());
    }
  }

  /** Fourteen days; plain water keeps. */
  @ParameterizedTest(name = "{0} mixed {1} s ago: old {2}")
  @CsvSource({"feed, 1209600, false", "feed, 1209601, true", "plain, 9999999, false"})
  void feedIsOldAfterAFortnight(String tank, long seconds, boolean old) {
    BenchDraft draft = holding(tank, 3_000.0, AT.minusSeconds(seconds));
    assertEquals(old, told(draft, "feed-old").isPresent());
  }

  @Test
  void tankOfWhichNobodySaidAnythingIsFull() {
    assertEquals(Optional.empty(), told(bench.draft(), "tank-low"));
    assertEquals(Optional.empty(), told(bench.draft(), "tank-empty"));
    assertEquals(Optional.empty(), told(bench.draft(), "feed-old"));
  }
}
