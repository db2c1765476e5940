package dev.cupwarden.app.calibrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.CommandRun;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code calibrate} on a simulated bench, as a script runs it. */
class CalibrateCommandTest {
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

  private int calibrate(String... more) {
    List<String> args = new ArrayList<>(List.of("calibrate"));
    args.addAll(List.of(more));
    args.addAll(
        List.of("--simulate", "--yes", "--bench", bench.toString(), "--data", folder.toString()));
    return command.execute(args);
  }

  private double found(String key) {
    Matcher matcher = Pattern.compile(key + ": (-?[0-9.]+)").matcher(out.toString());
    double last = Double.NaN;
    while (matcher.find()) {
      last = Double.parseDouble(matcher.group(1));
    }
    return last;
  }

  @Test
  void aScaleFindsTheFactorThatItsCellReallyHas() throws Exception {
    assertEquals(0, calibrate("scale", "s4"), err::toString);
    assertEquals(-1049.3, found("counts_per_g"), 1049.3 * 0.003);
    assertTrue(out.toString().contains("7 of 7"), out::toString);
    assertEquals(1, Files.readAllLines(folder.resolve("calibration.jsonl")).size());
  }

  @Test
  void aScaleThatIsToBeBetterThanItsCellIsRefusedAndNothingKept() {
    assertEquals(1, calibrate("scale", "s4", "--interval", "0.05"));
    assertTrue(err.toString().contains("is not good for an interval of 0.05 g"), err::toString);
    assertTrue(Files.notExists(folder.resolve("calibration.jsonl")));
  }

  @Test
  void thePumpFindsItsRate() {
    assertEquals(0, calibrate("pump", "A1"), err::toString);
    assertEquals(1.5, found("rate"), 0.2);
  }

  @Test
  void runsThatDoNotAgreeAreRefused() {
    assertEquals(1, calibrate("pump", "A1", "--measured", "30,31,22"));
    assertTrue(err.toString().contains("The runs do not agree"), err::toString);
  }

  /** A gram of water at 35 °C is 1.0071 mL by a scale in air (ISO/TR 20461): 30 g in 20 s. */
  @Test
  void weighedRunsCountAsTheWatersVolume() {
    assertEquals(
        0, calibrate("pump", "A1", "--measured", "30,30,30", "--weighed-at", "35"), err::toString);
    assertEquals(1.511, found("rate"), 0.0006);
    assertEquals(2, calibrate("pump", "A1", "--measured", "30,30,30", "--weighed-at", "60"));
  }

  @Test
  void aProbeFindsItsCurve() throws Exception {
    Files.writeString(
        bench,
        text.replace(
                "  pump: {",
                "  probes:\n    p1: {chip: ads1115, address: 0x48, input: 0, points: [{volts: 2.4,"
                    + " theta: 0.0}, {volts: 1.1, theta: 0.9}]}\n  pump: {")
            .replace("scale: s1, valve: v1", "probe: p1, valve: v1"));
    assertEquals(0, calibrate("probe", "p1", "--thetas", "0.4,0.5,0.55"), err::toString);
    assertEquals(2.4 - 1.3 * found("theta") / 0.9, found("volts"), 0.01);
  }

  @Test
  void whatWasAcceptedCanBeTakenBackAndStaysToBeSeen() throws Exception {
    assertEquals(0, calibrate("pump", "A1", "--measured", "30,30,30"));
    assertEquals(0, calibrate("pump", "A1", "--measured", "31,31,31"));
    assertEquals(0, calibrate("undo", "pump"));
    assertTrue(out.toString().contains("In the bench file again: rate: 1.500 mL/s"));
    Files.writeString(
        folder.resolve("calibration.jsonl"), "\n{\"at\":\"20", StandardOpenOption.APPEND);
    assertEquals(0, calibrate("undo", "pump"), "a torn line is no harm");
    assertEquals(1, calibrate("undo", "pump"));
    assertEquals(0, calibrate("history"));
    assertEquals(5, Files.readAllLines(folder.resolve("calibration.jsonl")).size());
  }

  @Test
  void whatIsUnknownIsRefusedWithOneSentence() {
    assertRefused(2, "scale", "s99");
    assertRefused(2, "probe");
    assertRefused(1, "scale", "s1", "--weights", "123");
  }

  private void assertRefused(int exitCode, String... arguments) {
    assertEquals(exitCode, calibrate(arguments));
    assertEquals(1, err.toString().lines().count(), err::toString);
  }

  @Test
  void aPersonMayGoAStepBackOrLeave() throws Exception {
    Dialogue dialogue =
        new Dialogue(
            new BufferedReader(new StringReader("\nundo\n12.5\n\nlots\n")),
            new PrintWriter(out, true),
            false);
    dialogue.confirm("Wait.");
    assertThrows(Dialogue.Undo.class, () -> dialogue.confirm("Wait."));
    assertEquals(12.5, dialogue.number("mL", OptionalDouble.empty()));
    assertEquals(7, dialogue.number("mL", OptionalDouble.of(7)));
    assertThrows(Refused.class, () -> dialogue.number("mL", OptionalDouble.empty()));
    assertThrows(Refused.class, () -> dialogue.confirm("Wait."), "the input ended");
  }
}
