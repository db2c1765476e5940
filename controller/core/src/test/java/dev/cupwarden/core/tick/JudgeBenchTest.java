package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.util.Collections;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is told of the bench as a whole beside its warmth, its tanks and its pump. */
class JudgeBenchTest {
  private BenchDraft draft = new DraftBench().draft();

  private Optional<AlertNotice> told(String code) {
    Conditions conditions = new Conditions(Collections.emptySortedMap());
    JudgeBench.judge(draft, false, conditions);
    return DraftBench.told(draft, conditions, code);
  }

  /** The file says nothing of its tray: 500 mL. */
  @ParameterizedTest(name = "{0} mL ran through: {1}")
  @CsvSource({"500, false", "500.1, true"})
  void trayIsFull(double ml, boolean full) {
    draft.pump = draft.pump.ranThrough(ml);
    assertEquals(full, told("tray-full").isPresent());
  }

  /** Six hours without a word from what once spoke. */
  @ParameterizedTest(name = "{0} s: dead {1}")
  @CsvSource({"21600, false", "21601, true"})
  void sensorIsDead(long seconds, boolean dead) {
    AirState.Measured then = new AirState.Measured(20.0, AT.minusSeconds(seconds));
    draft.air = new AirState(null, then, null, null, null, null, null, null, null);
    assertEquals(dead, told("sensor-dead").isPresent());
    draft.air = new AirState(null, null, null, then, null, null, null, null, null);
    assertEquals(dead, told("sensor-dead").isPresent());
    draft.air = AirState.UNKNOWN;
    draft.tanks.computeIfPresent(
        "plain", (name, was) -> new TankState(null, 0.0, 9_000.0, null, then.at()));
    assertEquals(dead, told("sensor-dead").isPresent());
  }

  /** Told a week ahead; 2.5 g of a feed of 5 g in a US gallon makes 4 L of half its strength. */
  @ParameterizedTest(name = "from {0}: {1} in {2} days")
  @CsvSource({
    "2027-02-22, '', 0",
    "2027-02-21, feed-change, 7",
    "2027-02-15, feed-change, 1",
    "2027-02-14, tank-unsuited, 0",
    "2027-02-13, tank-unsuited, -1"
  })
  void feedThatThePlanWantsSoonIsMixedInTime(String from, String code, double days) {
    String plan = "    - {from: 2026-11-01, feed: leafy}\n";
    draft =
        DraftBench.of(
                Story.BENCH
                    .replace(plan, plan + "    - {from: %s, feed: bloom}\n".formatted(from))
                    .replace(
                        "feeds:\n",
                        "feeds:\n  bloom: {analysis: {N: 5, P2O5: 20, K2O: 20}, spoon: 5 g, ec: 1.2,"
                            + " label: {amount: 1 tsp, per: 1 US gal, every: 14 d}}\n"))
            .draft();
    for (String one : Set.of("feed-change", "tank-unsuited")) {
      assertEquals(one.equals(code), told(one).isPresent(), one);
    }
    if (!code.isEmpty()) {
      AlertNotice notice = told(code).get();
      assertEquals(days, notice.value());
      assertEquals(7.0, notice.threshold());
      assertTrue(notice.whatToDo().contains("mix 2.6 g of it into 4.0 L (strength 0.5)"), code);
    }
  }

  /** 5 g / 3.785412 L x 0.5 x 4 L = 2.64 g, above; and no tank for a due cup is told first. */
  @Test
  void noTankForADueCupIsToldBeforeAllElse() {
    draft.unsuited = true;
    draft.cups.get("A1").watering =
        draft
            .cups
            .get("A1")
            .watering
            .with(Refill.byHand(Cause.FED_RESCUE, AT, 30.0, Double.NaN, Set.of(), null));
    AlertNotice first = told("tank-unsuited").get();
    assertEquals(1.0, first.value());
    assertEquals(Catalogue.say("alert.tank-unsuited.plain-out"), first.whatToDo());
    draft.unsuited = false;
    assertEquals(
        Catalogue.say("alert.tank-unsuited.on-feed", "A1"), told("tank-unsuited").get().whatToDo());
  }

  /** 5 mg/L N are too many; told for a day. */
  @ParameterizedTest(name = "{0} s ago: {1}")
  @CsvSource({"86400, true", "86401, false"})
  void whatCameOutOfTheHoseIsToldForADay(long seconds, boolean told) {
    draft.hose.told = new HoseState.Carried(AT.minusSeconds(seconds), "A2", 12.0);
    Optional<AlertNotice> notice = told("tank-unsuited");
    assertEquals(told, notice.isPresent());
    notice.ifPresent(one -> assertEquals(12.0, one.value()));
    notice.ifPresent(one -> assertEquals(5.0, one.threshold()));
    notice.ifPresent(
        one ->
            assertEquals(Catalogue.say("alert.tank-unsuited.carried", "A2", 12.0), one.whatToDo()));
  }
}
