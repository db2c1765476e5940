package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchTexts;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.tick.Tick;
import org.junit.jupiter.api.Test;

/** The real tick behind the lines: what is kept from one line to the next. */
class TickAdviserTest {
  private static final String DUE =
      "{\"at\":\"2027-02-14T08:00:00Z\",\"mass_g\":{\"A1\":262.1,\"A2\":202.3}}";
  private static final String NEXT = "{\"at\":\"2027-02-14T08:05:00Z\",\"mass_g\":{\"A1\":291.9}}";

  private final Bench bench = BenchTexts.backRoomBench();

  private TickAdviser fresh() throws SetupException {
    return new TickAdviser(new Tick(bench));
  }

  private Observation seen(String line) throws LineRefused {
    return ObservationReader.read(line, bench.cups().keySet(), bench.tanks().keySet());
  }

  @Test
  void briefIsTheSameAdviceWithoutTheCups() throws SetupException, LineRefused {
    Advice whole = fresh().advise(seen(DUE), false);
    Advice brief = fresh().advise(seen(DUE), true);
    assertFalse(whole.passes().isEmpty());
    assertEquals(bench.cups().keySet(), whole.cups().keySet());
    assertNull(brief.cups());
    assertEquals(whole.passes(), brief.passes());
  }

  @Test
  void timeThatDoesNotGoOnIsRefusedAndChangesNothing() throws SetupException, LineRefused {
    TickAdviser disturbed = fresh();
    disturbed.advise(seen(DUE), false);
    Observation again = seen(DUE);
    assertEquals(
        "at: 2027-02-14T08:00:00Z is not later than 2027-02-14T08:00:00Z, the time before it",
        assertThrows(LineRefused.class, () -> disturbed.advise(again, false)).getMessage());

    TickAdviser undisturbed = fresh();
    undisturbed.advise(seen(DUE), false);
    assertEquals(undisturbed.advise(seen(NEXT), false), disturbed.advise(seen(NEXT), false));
  }
}
