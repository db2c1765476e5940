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

  private static Map<InjectedFault, Integer> begun(FaultLevel level) {
    FaultPlan plan = new FaultPlan(level, CUPS, DAYS, 5, 7);
    Map<InjectedFault, Integer> begun = new EnumMap<>(InjectedFault.class);
    for (int tick = 0; tick < TICKS; tick++) {
      plan.reach(tick);
      for (InjectedFault kind : InjectedFault.values()) {
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
    Map<InjectedFault, Integer> all = begun(FaultLevel.ALL);
    for (InjectedFault kind : InjectedFault.values()) {
      double expected = CUPS * DAYS / kind.meanDaysBetween;
      assertEquals(expected, all.getOrDefault(kind, 0), 4 * Math.sqrt(expected), kind.name());
    }
    assertFalse(begun(FaultLevel.COMMON).containsKey(InjectedFault.VALVE_DRIPPING));
  }

  @Test
  void aFaultThatWasMendedIsOver() {
    FaultPlan plan = new FaultPlan(FaultLevel.ALL, CUPS, DAYS, 5, 7);
    int tick = 0;
    do {
      plan.reach(tick++);
    } while (!plan.holds(InjectedFault.VALVE_CLOGGED, 0) && tick < TICKS);
    assertTrue(plan.holds(InjectedFault.VALVE_CLOGGED, 0));
    plan.mend(InjectedFault.VALVE_CLOGGED, 0);
    plan.reach(tick);
    assertFalse(plan.holds(InjectedFault.VALVE_CLOGGED, 0));
  }
}
