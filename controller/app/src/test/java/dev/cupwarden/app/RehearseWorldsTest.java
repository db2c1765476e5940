package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

/** {@code rehearse --world}: the same bench in one world, the other, or both. */
class RehearseWorldsTest {
  private final CommandRun command = CommandRun.apart();
  private final StringWriter out = command.out;
  private final StringWriter err = command.err;

  private int rehearse(String... args) {
    return command.execute(new CommandLine(new RehearseCommand()), args);
  }

  private JsonNode read(String world) throws JsonProcessingException {
    assertEquals(
        0,
        rehearse(
            "--cups",
            "4",
            "--days",
            "12",
            "--seeds",
            "2",
            "--policy",
            "cupwarden,by-hand",
            "--json",
            "--world",
            world),
        err::toString);
    return Json.MAPPER.readTree(out.toString());
  }

  @Test
  void bothWorldsAreToldApartAndEachAsWhenItIsRunAlone() throws JsonProcessingException {
    JsonNode both = read("both").at("/policies");
    assertEquals(4, both.size());
    assertEquals("first", both.at("/0/world").textValue());
    assertEquals("second", both.at("/2/world").textValue());
    assertEquals("cupwarden", both.at("/2/policy").textValue());
    assertEquals(read("first").at("/policies/1"), both.get(1));
    assertEquals(read("second").at("/policies/0"), both.get(2));
    assertNotEquals(
        both.at("/0/total/water_ml").doubleValue(), both.at("/2/total/water_ml").doubleValue());
  }

  @Test
  void withoutAWordItIsTheFirst() throws JsonProcessingException {
    JsonNode first = read("first");
    assertEquals(
        0,
        rehearse(
            "--cups",
            "4",
            "--days",
            "12",
            "--seeds",
            "2",
            "--policy",
            "cupwarden,by-hand",
            "--json"));
    assertEquals(first, Json.MAPPER.readTree(out.toString()));
  }

  @Test
  void aTableNamesTheWorldOfEachColumn() {
    assertEquals(0, rehearse("--cups", "2", "--days", "3", "--policy", "timer", "--world", "both"));
    assertTrue(out.toString().lines().anyMatch(line -> line.matches("world +first +second")));
  }

  @Test
  void anotherWorldIsRefusedInASentence() {
    assertEquals(2, rehearse("--cups", "2", "--days", "3", "--world", "third"));
    assertTrue(
        err.toString().contains("--world: \"third\" is none of: first, second, both"),
        err::toString);
    assertEquals(2, rehearse("--estimates", "--world", "both", "--days", "3"));
    assertTrue(err.toString().contains("--estimates: goes with --world first or"), err::toString);
  }
}
