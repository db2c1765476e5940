package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.simulator.rehearsal.Figures;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class RehearseCommandTest {
  private final CommandRun command = CommandRun.apart();
  private final StringWriter out = command.out;
  private final StringWriter err = command.err;

  private int rehearse(String... args) {
    return command.execute(new CommandLine(new RehearseCommand()), args);
  }

  @Test
  void theSameSeedsGiveTheSameBytesOnAnyNumberOfThreads() throws JsonProcessingException {
    String[] args = {
      "--cups", "6", "--days", "20", "--seeds", "3", "--policy", "oracle,by-hand", "--json"
    };
    assertEquals(0, rehearse(args));
    String once = out.toString();
    assertEquals(0, rehearse(args));
    assertEquals(once, out.toString());
    JsonNode read = Json.MAPPER.readTree(once);
    assertEquals("by-hand", read.at("/policies/1/policy").textValue());
    assertEquals(3, read.at("/policies/0/seeds").size());
    assertEquals(18, read.at("/policies/0/total/cups").intValue());
    assertTrue(err.toString().contains("cup-days simulated a second"));
  }

  /** A virtual machine may list methods in another order at its next start; components it keeps. */
  @Test
  void figuresComeInTheSameOrderAtEveryStart() throws JsonProcessingException {
    assertEquals(0, rehearse("--cups", "2", "--days", "3", "--policy", "timer", "--json"));
    List<String> expected =
        new ArrayList<>(List.of("lost", "in_band", "leaching_fraction", "wet_hours_per_cup_week"));
    Arrays.stream(Figures.class.getRecordComponents())
        .map(part -> PropertyNamingStrategies.SnakeCaseStrategy.INSTANCE.translate(part.getName()))
        .forEach(expected::add);
    List<String> names = new ArrayList<>();
    Json.MAPPER
        .readTree(out.toString())
        .at("/policies/0/total")
        .fieldNames()
        .forEachRemaining(names::add);
    assertEquals(expected, names);
  }

  @Test
  void aTableHasAColumnForEachPolicy() {
    assertEquals(
        0, rehearse("--cups", "2", "--days", "3", "--policy", "timer", "--policy", "oracle"));
    assertTrue(out.toString().contains("timer") && out.toString().contains("oracle"));
    assertTrue(out.toString().contains("hours past the wet line"));
  }

  @Test
  void estimatesAreToldAgainstTheTruth() {
    assertEquals(0, rehearse("--estimates", "--cups", "6", "--days", "4", "--seeds", "2"));
    assertTrue(out.toString().contains("mass within 0.5 g"), out.toString());
    assertTrue(out.toString().contains("swap told right"), out.toString());
    assertEquals(2, rehearse("--estimates", "--faults", "all"));
    assertTrue(err.toString().contains("--estimates: goes with --faults none or common"));
  }

  @Test
  void whatCannotBeDoneIsRefusedInASentence(@TempDir Path folder) throws IOException {
    assertEquals(2, rehearse("--policy", "prayer"));
    assertTrue(err.toString().contains("\"prayer\" is not a policy; known: cupwarden"));
    assertEquals(2, rehearse("--faults", "many"));
    assertEquals(2, rehearse("--days", "0"));
    assertEquals(2, rehearse("--cups", "1000"));
    assertEquals(2, rehearse("--bench", folder.resolve("none.yaml").toString()));
    assertTrue(err.toString().contains("none.yaml: there is no such file"));
    Path wrong = Files.writeString(folder.resolve("bench.yaml"), "bench: x\nbogus: 1\n");
    assertEquals(2, rehearse("--bench", wrong.toString()));
    assertTrue(err.toString().contains("bogus"), err::toString);
  }
}
