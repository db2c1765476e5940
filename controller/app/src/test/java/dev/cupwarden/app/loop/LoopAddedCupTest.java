package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.state.CupState;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A cutting is gone; another stands in its place, put there by an order while the bench runs. */
class LoopAddedCupTest extends LoopOnABench {
  private static final Cup.Wiring PLACE =
      new Cup.Wiring(Optional.of("s12"), Optional.of("v12"), Optional.empty());

  private BenchLoop exchanged() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 2);
    orderedNow("retire", ", \"cup\": \"C4\", \"because\": \"rotted\"");
    ticks(loop, 1);
    world.takeOut("C4");
    orderedNow(
        "add",
        ", \"cup\": \"D1\", \"vessel\": \"short\", \"mix\": \"coir-perlite\", \"plant\": \"elder\","
            + " \"stage\": \"circling\", \"cutting\": \"15 g\", \"scale\": \"s12\", \"valve\": \"v12\"");
    ticks(loop, 1);
    assertEquals("done", outcomeOf("add"));
    Cup added = last().step().state().cups().get("D1").setup();
    assertEquals(PLACE, added.wiring());
    world.place(added);
    return loop;
  }

  private CupState added() {
    return last().step().state().cups().get("D1");
  }

  @Test
  void itIsWeighedAndWateredThroughItsValve() throws Exception {
    BenchLoop loop = exchanged();
    ticks(loop, 3);
    double seenG =
        last().cups().stream()
            .filter(cup -> cup.cup().equals("D1"))
            .mapToDouble(CupStatus::massG)
            .sum();
    assertEquals(world.cup("D1").grossG(), seenG, 2.0);
    time.until(time.nanos() + Duration.ofDays(12).toNanos());
    double dryMl = world.cup("D1").waterMl();
    ticks(loop, 60);
    assertTrue(
        passes().stream().anyMatch(pass -> pass.cup().equals("D1")),
        () -> last().cups().toString());
    assertTrue(world.cup("D1").waterMl() > dryMl + 10, "nothing arrived");
  }

  @Test
  void itKeepsItsPlaceOverAStartAndLosesItToACupThatTheFilePutsThere() throws Exception {
    ticks(exchanged(), 2);
    ticks(loop(), 1);
    assertEquals(PLACE, added().setup().wiring());
    assertTrue(weighed("D1"));
    edit("plant: elder, struck: 2026-10-17", "plant: elder, struck: 2026-10-18");
    ticks(loop(), 1);
    assertEquals(Cup.Wiring.NONE, added().setup().wiring());
    assertFalse(weighed("D1"));
    assertTrue(weighed("C4"));
  }

  private boolean weighed(String cup) {
    return board.read().massG().containsKey(cup);
  }
}
