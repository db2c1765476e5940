package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.messages.AlertNotice;
import java.util.List;

/** A way of watering a bench. It is asked once a tick, in order of time, and may remember. */
public interface Policy {

  /** What to give now, and what was raised or cleared. */
  Decision decide(RehearsalReadings readings);

  /** Passes in the order to give them, at most one a cup; changes of alerts. */
  record Decision(List<Watering> waterings, List<AlertNotice> alerts) {
    static Decision watering(List<Watering> waterings) {
      return new Decision(waterings, List.of());
    }
  }
}
