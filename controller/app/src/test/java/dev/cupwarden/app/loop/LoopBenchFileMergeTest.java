package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.AirState;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A bench whose file was edited between two runs. */
class LoopBenchFileMergeTest extends LoopOnABench {
  @Test
  void editedBenchFileIsTakenUpWithoutForgettingWhatWasGiven() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 60);
    int given = journalState().at("/cups/C4/doses/given").size();
    assertTrue(given > 0);
    edit("plant: elder, struck: 2026-10-17, stage: circling", "plant: elder, stage: toughened");
    edit("(?m)^  A4: .*$", "");
    BenchLoop edited = loop();
    ticks(edited, 1);
    JsonNode state = journalState();
    assertTrue(state.at("/cups/C4/doses/given").size() >= given);
    assertEquals("toughened", state.at("/cups/C4/setup/stage").asText());
    assertTrue(state.at("/cups/A4").isMissingNode());
    assertFalse(state.at("/cups/A1").isMissingNode());
  }

  @Test
  void cupThatAnOrderAddedKeepsItsLedgerWhenItIsWrittenIntoTheFile() throws Exception {
    edit("(?m)^  C4: .*$", "");
    BenchLoop loop = loop();
    orderedNow(
        "add",
        ", \"cup\": \"C4\", \"vessel\": \"short\", \"mix\": \"coir-perlite\", \"plant\": \"elder\","
            + " \"stage\": \"circling\", \"cutting\": \"15 g\"");
    ticks(loop, 1);
    orderedNow("watered", ", \"cup\": \"C4\", \"ml\": 30, \"strength\": 0.25");
    ticks(loop, 1);
    assertEquals(1, journalState().at("/cups/C4/doses/given").size());
    readBench(BackRoom.text());
    ticks(loop(), 1);
    assertTrue(journalState().at("/cups/C4/doses/given/0/strength").asDouble() > 0);
  }

  @Test
  void cupInAVesselThatTheFileNoLongerHasIsRefusedInASentence() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 1);
    orderedNow(
        "repot", ", \"cup\": \"A1\", \"vessel\": \"spare\", \"mix\": \"%s\"".formatted(mix("A1")));
    edit(
        "(?m)^vessels:\n",
        "vessels:\n  spare: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}\n");
    ticks(loop(), 1);
    assertEquals("done", outcomeOf("repot"));
    edit("(?m)^  spare: .*\n", "");
    SetupException refused = assertThrows(SetupException.class, this::loop);
    assertTrue(refused.getMessage().contains("vessel spare"), refused.getMessage());
  }

  private String mix(String cup) {
    return bench.cups().get(cup).mix();
  }

  @Test
  void whatAThermometerSaidThatIsNoLongerThereIsForgotten() throws Exception {
    ticks(loop(), 1);
    BenchHardware hardware = BenchHardware.of(board);
    assertNotNull(LoopStart.of(parts(hardware, Optional.empty())).state().air().rootC());
    edit("(?m)^  root: .*\n", "");
    AirState air = LoopStart.of(parts(hardware, Optional.empty())).state().air();
    assertNull(air.rootC());
    assertNotNull(air.airC());
  }

  private JsonNode journalState() throws Exception {
    try (JournalExport export = JournalExport.open(journal.file())) {
      return Json.MAPPER.valueToTree(export.state().orElseThrow());
    }
  }
}
