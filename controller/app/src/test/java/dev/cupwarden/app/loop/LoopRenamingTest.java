package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.core.state.CupState;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A cup that the edited bench file calls otherwise. Before, it began without what it was given. */
class LoopRenamingTest extends LoopOnABench {
  private CupState cup(String name) throws Exception {
    return journal.restored().orElseThrow().state().cups().get(name);
  }

  private List<String> warned() throws Exception {
    try (Outbox outbox = Outbox.of(journal)) {
      return outbox.eventsAfter("", 0, 10_000).stream()
          .filter(event -> event.data().path("change").asText().equals("bench-file"))
          .map(event -> event.data().get("detail").asText())
          .toList();
    }
  }

  @Test
  void keepsItsLedgerAndWhatOrdersChanged() throws Exception {
    BenchLoop loop = loop();
    orderedNow("stage", ", \"cup\": \"C4\", \"stage\": \"toughened\"");
    orderedNow("watered", ", \"cup\": \"C4\", \"ml\": 30, \"strength\": 0.25");
    ticks(loop, 40);
    CupState before = cup("C4");
    assertFalse(before.doses().given().isEmpty());
    edit("(?m)^  C4: ", "  elder-4: ");
    ticks(loop(), 1);
    CupState renamed = cup("elder-4");
    assertEquals(
        before.doses().given(), renamed.doses().given().subList(0, before.doses().given().size()));
    assertEquals("elder-4", renamed.setup().name());
    assertEquals(before.setup().stage(), renamed.setup().stage());
    assertEquals(before.witness().learned(), renamed.witness().learned());
    assertEquals(null, cup("C4"));
    assertEquals(List.of(), warned());
  }

  @Test
  void isWarnedOfWhereItCannotBeTold() throws Exception {
    ticks(loop(), 1);
    edit(
        "(?m)^  C4: (.*)plant: elder, struck: 2026-10-17",
        "  E1: $1plant: elder, struck: 2026-10-18");
    ticks(loop(), 1);
    assertTrue(warned().get(0).contains("C4"), warned()::toString);
    assertTrue(cup("E1").doses().given().isEmpty());
  }
}
