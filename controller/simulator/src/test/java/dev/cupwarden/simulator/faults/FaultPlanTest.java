package dev.cupwarden.simulator.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class FaultPlanTest {
  private static final int CUPS = 24;
  private static final int DAYS = 120;
  private static final int TICKS = DAYS * 288;

  private static Map<Fault, Integer> begun(FaultLevel level) {
    FaultPlan plan = new FaultPlan(level, CUPS, DAYS, 5, 7);
    Map<Fault, Integer> begun = new EnumMap<>(Fault.class);
    for (int tick = 0; tick < TICKS; tick++) {
      plan.reach(tick);
      for (Fault kind : Fault.values()) {
        for (int cup = 0; cup < CUPS; cup++) {
          if (plan.began(kind, cup)) {
            begun.merge(kind, 1, Integer::sum);
          }
        }
      }
    }
    return begun;
  }

  @Test
  void withoutFaultsNothingBegins() {
    assertTrue(begun(FaultLevel.NONE).isEmpty());
  }

  @Test
  void everyKindOfItsLevelComesUpOnABenchWithinAWinter() {
    Map<Fault, Integer> all = begun(FaultLevel.ALL);
    for (Fault kind : Fault.values()) {
      double expected = CUPS * DAYS / kind.meanDaysBetween;
      assertEquals(expected, all.getOrDefault(kind, 0), 4 * Math.sqrt(expected), kind.name());
    }
    assertFalse(begun(FaultLevel.COMMON).containsKey(Fault.VALVE_DRIPPING));
  }

  @Test
  void aFaultThatWasMendedIsOver() {
    FaultPlan plan = new FaultPlan(FaultLevel.ALL, CUPS, DAYS, 5, 7);
    int tick = 0;
    do {
      plan.reach(tick++);
    } while (!plan.holds(Fault.VALVE_CLOGGED, 0) && tick < TICKS);
    assertTrue(plan.holds(Fault.VALVE_CLOGGED, 0));
    plan.mend(Fault.VALVE_CLOGGED, 0);
    plan.reach(tick);
    assertFalse(plan.holds(Fault.VALVE_CLOGGED, 0));
  }
}
