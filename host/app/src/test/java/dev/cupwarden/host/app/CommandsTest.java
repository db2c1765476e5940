package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.HostInTest;
import dev.cupwarden.host.Spoken;
import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** The commands that look into a store, over one that a real host has filled. */
class CommandsTest {
  private static final Topics SILL = new Topics("sill");
  @TempDir static Path data;
  @TempDir Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  @BeforeAll
  static void fill() throws Exception {
    try (HostInTest host = new HostInTest(data)) {
      for (int hour = 0; hour < 48; hour++) {
        var at = Spoken.EIGHT.plusSeconds(3600L * hour);
        host.bench().publish(SILL.readings(), Spoken.pack("sill", at, "A1", 320 - hour), false);
      }
      host.bench().publish(SILL.events(), Spoken.dose("e", 1, "A1", Spoken.EIGHT), false);
      host.bench()
          .publish(SILL.events(), Spoken.alert("e", 2, "cold", "raised", Spoken.EIGHT), false);
      host.bench().publish(SILL.cup("A1"), Spoken.cup("A1", Spoken.EIGHT, 320), true);
      host.bench().publish(SILL.setup(), Spoken.setup(Spoken.EIGHT, "A1:currant"), true);
      host.await("api/benches/sill/events", events -> events.size() == 2);
      host.await("api/benches/sill/cups", cups -> cups.size() == 1);
      host.await("api/benches/sill/setup", setup -> setup.toString().contains("A1"));
      host.await("api/benches/sill/cups/A1/weights", answer -> answer.path("at").size() == 48);
    }
  }

  private int run(String... arguments) {
    CommandLine command = HostCommand.commandLine();
    command.setErr(new PrintWriter(err, true));
    command.setOut(new PrintWriter(out, true));
    return command.execute(arguments);
  }

  /** With the folder of the store. */
  private int stored(String line) {
    List<String> arguments = new ArrayList<>(List.of(line.split(" ")));
    arguments.addAll(List.of("--data", data.toString()));
    return run(arguments.toArray(new String[0]));
  }

  @ParameterizedTest
  @CsvSource({
    "readings, 320.0, 97",
    "doses, A1, 2",
    "alerts, cold, 2",
    "season, currant, 2",
    "advise, mass_g, 48",
    "senml, A1/mass, 1"
  })
  void exportWritesWhatIsStored(String what, String has, int lines) {
    assertEquals(0, stored("export " + what + " --bench sill"), err.toString());
    assertTrue(out.toString().contains(has), out.toString());
    assertTrue(out.toString().lines().count() >= lines, what + ":\n" + out);
    assertEquals("", err.toString());
  }

  @Test
  void exportNeverWritesOverAFile() throws Exception {
    Path file = Files.writeString(folder.resolve("kept.csv"), "mine");
    assertEquals(1, stored("export doses --bench sill -o " + file));
    assertEquals("mine", Files.readString(file));
    assertTrue(err.toString().contains("is there already"), err.toString());
  }

  @Test
  void exportOfATimeHoldsNothingElse() {
    assertEquals(
        0,
        stored(
            "export readings --bench sill --from 2027-02-14T09:00:00Z --to"
                + " 2027-02-14T10:00:00Z"));
    assertTrue(out.toString().contains("319.0") && !out.toString().contains("318.0"));
  }

  @Test
  void exportOfATimeThatNoClockShowsIsRefused() {
    assertEquals(2, stored("export readings --bench sill --to +999999999-12-31T23:59:59Z"));
    assertTrue(err.toString().contains("--to: expected a time from 1970"), err.toString());
  }

  @Test
  void reviewDrawsAndTabulatesDryDowns() throws Exception {
    Path picture = folder.resolve("dry-downs.svg");
    assertEquals(0, stored("review --bench sill --cup A1 --svg " + picture), err.toString());
    assertFalse(out.toString().isBlank());
    assertTrue(Files.readString(picture).contains("<svg"));
  }

  @Test
  void storeIsCopiedOnceAndVacuumed() {
    Path copy = folder.resolve("copy.db");
    assertEquals(0, stored("store backup " + copy), err.toString());
    assertTrue(Files.exists(copy));
    assertEquals(1, stored("store backup " + copy));
    assertTrue(err.toString().contains("is there already"), err.toString());
    assertEquals(0, stored("store vacuum"));
  }

  @Test
  void usersAndBenchesAreAddedListedAndRemoved() {
    InputStream before = System.in;
    System.setIn(new ByteArrayInputStream("correct horse\n".getBytes(StandardCharsets.UTF_8)));
    try {
      assertEquals(0, stored("user add gardener --role act"), err.toString());
    } finally {
      System.setIn(before);
    }
    assertEquals(0, stored("user bench shed"));
    assertEquals(0, stored("user list"));
    assertTrue(out.toString().contains("gardener act"), out.toString());
    assertTrue(out.toString().contains("bench shed"), out.toString());
    assertFalse(out.toString().contains("correct horse"));
    assertEquals(0, stored("user bench --remove shed"));
    assertEquals(0, stored("user remove gardener"));
    assertEquals(1, stored("user remove gardener"));
    assertTrue(err.toString().contains("no user gardener"), err.toString());
  }

  @Test
  void aNoticeThatCannotBeSentIsToldInOneSentence() throws Exception {
    Path file = Files.writeString(folder.resolve("notices.yaml"), "mail: [nonsense]\n");
    assertEquals(1, run("notice", "--test", "--notices", file.toString()), err.toString());
    assertEquals(1, err.toString().lines().count(), err.toString());
  }
}
