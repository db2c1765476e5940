package dev.cupwarden.app;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.time.Instant;

/** States of the example bench, for tests to which it does not matter what has been seen. */
public final class SomeState {
  private static final Bench BENCH = BackRoom.bench();

  private SomeState() {}

  /** Nothing but the time has been seen. */
  public static BenchState at(Instant at) {
    String line = "{\"at\":\"" + at + "\"}";
    try {
      Tick tick = new Tick(BENCH);
      return tick.step(
              tick.fresh(),
              ObservationReader.read(line, BENCH.cups().keySet(), BENCH.tanks().keySet()))
          .state();
    } catch (SetupException | LineRefused e) {
      throw new IllegalStateException(e);
    }
  }
}
