package dev.cupwarden.app.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.CommandRun;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code check} on a simulated bench, as a script runs it. */
class CheckCommandTest {
  private final CommandRun command = CommandRun.apart();
  private final StringWriter out = command.out;
  private final StringWriter err = command.err;
  @TempDir Path folder;
  private Path bench;
  private String text;

  @BeforeEach
  void benchFile() throws Exception {
    bench = folder.resolve("bench.yaml");
    text = BackRoom.text();
    Files.writeString(bench, text);
  }

  private int check(String... more) {
    return command.execute(
        List.of("check", "--simulate", "--no-ask", "--bench", bench.toString()), more);
  }

  @Test
  void aSoundBenchPasses() {
    assertEquals(
        0, check("--tray", "16 L", "--confirm", "all", "--data", folder.toString()), out::toString);
    assertTrue(out.toString().contains("0x70 ch 0 > 0x2a"), "the map is shown");
    assertFalse(out.toString().contains("FAIL"));
  }

  @Test
  void anUnconfirmedQuestionFailsWithItsText() {
    assertEquals(1, check("--tray", "16 L", "--confirm", "valves,timer,tank,supply,rcd,air-gap"));
    assertTrue(out.toString().contains("drip-loop: not confirmed. Do all cables hang"));
    assertTrue(out.toString().contains("1 to be put right"), out::toString);
  }

  @Test
  void tanksLargerThanTheTrayFailAndAnUnknownTrayToo() {
    assertEquals(1, check("--tray", "10 L", "--confirm", "all"));
    assertTrue(out.toString().contains("The tanks hold 16.0 L, the drip tray 10.0 L"));
    assertEquals(1, check("--confirm", "all"));
    assertTrue(out.toString().contains("Or give --tray."));
  }

  @Test
  void theBenchFileMaySayWhatTheTrayHolds() throws Exception {
    Files.writeString(bench, text + "tray: 10 L\n");
    assertEquals(1, check("--confirm", "all"));
    assertTrue(out.toString().contains("the drip tray 10.0 L"), out::toString);
    assertEquals(0, check("--tray", "16 L", "--confirm", "all"), out::toString);
  }

  @Test
  void aCupWithoutAValveFails() throws Exception {
    Files.writeString(bench, text.replace(", valve: v5", ""));
    assertEquals(1, check("--tray", "16 L", "--confirm", "all"));
    assertTrue(out.toString().contains("Cup B1 has no valve."));
  }

  @Test
  void whatIsNotABenchOrAnOptionIsRefusedWithOneSentence() throws Exception {
    refusedInOneSentence("--confirm", "everything");
    refusedInOneSentence("--tray", "16");
    Files.writeString(bench, text.replace("v2: {gpio: 12}", "v2: {gpio: 9}"));
    refusedInOneSentence();
  }

  @Test
  void aProofNeedsSomebodyAndAPlaceForItsRecord() throws Exception {
    refusedInOneSentence("--prove");
    refusedInOneSentence("--prove", "--data", folder.toString());
    assertEquals(
        0, check("--tray", "16 L", "--confirm", "all", "--data", folder.toString()), out::toString);
    assertTrue(
        out.toString().contains("note  proof        It was never proved that timer, valves"),
        out::toString);
    new ProofRecord(folder).write(BackRoom.bench().board().orElseThrow(), Instant.now());
    check("--tray", "16 L", "--confirm", "all", "--data", folder.toString());
    assertFalse(out.toString().contains("note  proof"), out::toString);
  }

  private void refusedInOneSentence(String... more) {
    assertEquals(2, check(more));
    assertEquals(1, err.toString().lines().count(), err::toString);
  }

  @Test
  void devicesThatAreMissingOrNotAllowedAreNamedWithTheirGroup() throws Exception {
    Path root = folder.resolve("root");
    Files.createDirectories(root.resolve("dev"));
    var wiring = dev.cupwarden.app.BenchSource.load(bench).board().orElseThrow();
    MachineCheck machine = new MachineCheck(root);
    assertEquals(3, machine.devices(wiring).stream().filter(CheckCommandTest::failed).count());
    Files.createDirectories(root.resolve("sys/bus/w1/devices/28-0316a2795aff"));
    Files.createFile(root.resolve("dev/i2c-1"));
    Files.createFile(root.resolve("dev/gpiochip0"));
    assertEquals(0, machine.devices(wiring).stream().filter(CheckCommandTest::failed).count());
    assertTrue(failed(machine.folder(folder.resolve("nowhere"))));
    assertEquals(Finding.Level.NOTE, machine.clock().level());
    assertEquals(Finding.Level.NOTE, machine.watchdog().level());
    Files.createFile(root.resolve("dev/watchdog"));
    assertEquals(Finding.Level.OK, machine.watchdog().level());
    Files.createDirectories(root.resolve("run/systemd/timesync"));
    Files.createFile(root.resolve("run/systemd/timesync/synchronized"));
    assertEquals(Finding.Level.OK, machine.clock().level());
  }

  private static boolean failed(Finding finding) {
    return finding.level() == Finding.Level.FAIL;
  }
}
