package dev.cupwarden.app.loop;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.tick.Tick;
import java.time.Instant;
import java.util.List;

/**
 * What one tick came to, for whoever listens.
 *
 * @param doses what was given, with its outcome, in order
 */
public record TickReport(
    Instant at,
    Tick.Step step,
    List<Dose> doses,
    List<CupStatus> cups,
    BenchStatus bench,
    BenchSetup setup) {

  /** All that was decided; worked out for who asks. */
  public Advice advice() {
    return step.advice();
  }

  /** Hears of each tick when it is over; must return soon. */
  public interface Listener {
    void ticked(TickReport report);
  }
}
