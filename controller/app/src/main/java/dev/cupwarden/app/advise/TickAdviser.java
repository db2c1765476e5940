package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;

/** A bench's tick and its state, from line to line. */
final class TickAdviser implements Adviser {
  private Tick tick;
  private final Set<String> cups;
  private BenchState state;

  TickAdviser(Tick tick) {
    this.tick = tick;
    this.cups = new TreeSet<>(tick.bench().cups().keySet());
    this.state = tick.fresh();
  }

  @Override
  public Set<String> cups() {
    return Collections.unmodifiableSet(cups);
  }

  @Override
  public Advice advise(Observation seen, boolean brief) throws LineRefused {
    if (state.at() != null && !seen.at().isAfter(state.at())) {
      throw new LineRefused(
          "at: %s is not later than %s, the time before it".formatted(seen.at(), state.at()));
    }
    Tick.Step step = tick.step(state, seen);
    tick = step.tick();
    state = step.state();
    cups.addAll(state.cups().keySet());
    return brief ? step.brief() : step.advice();
  }
}
