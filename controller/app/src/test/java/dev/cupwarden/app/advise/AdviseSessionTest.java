package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.setup.BenchTexts;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The protocol of lines, whatever the advice. */
class AdviseSessionTest {
  private static final String FIRST = "{\"at\":\"2027-02-14T08:00:00Z\",\"mass_g\":{\"A1\":262.1}}";
  private static final String SECOND = "{\"at\":\"2027-02-14T08:05:00Z\"}";
  private static final String FIRST_OUT =
      "{\"at\":\"2027-02-14T08:00:00Z\",\"passes\":[],\"alerts\":[],\"receipts\":[],\"cups\":{\"A1\":"
          + "{\"state\":\"steady\",\"depletion\":null,\"sd\":null,\"rate_g_h\":null,\"due_at\":null,"
          + "\"dry_at\":null,\"trusted\":true,\"stage\":\"struck\",\"fed\":0.0,\"checks\":[]}}}";
  private static final String SECOND_OUT =
      "{\"at\":\"2027-02-14T08:05:00Z\",\"passes\":[],\"alerts\":[],\"receipts\":[],\"cups\":{}}";

  private final EchoAdviser adviser = new EchoAdviser();
  private boolean allRead;

  private List<String> answers(String in) throws IOException {
    return answers(in.getBytes(StandardCharsets.UTF_8), false);
  }

  private List<String> answers(byte[] in, boolean brief) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    allRead = session(brief, false).run(new ByteArrayInputStream(in), out);
    String text = out.toString(StandardCharsets.UTF_8);
    assertTrue(text.isEmpty() || text.endsWith("\n"));
    List<String> answers = text.lines().toList();
    for (String answer : answers) {
      Schemas.assertFits("advise-out", json(answer));
    }
    return answers;
  }

  private static com.fasterxml.jackson.databind.JsonNode json(String text)
      throws JsonProcessingException {
    return Json.MAPPER.readTree(text);
  }

  private AdviseSession session(boolean brief, boolean csv) {
    return JsonSession.of(BenchTexts.backRoomBench(), adviser, brief, csv);
  }

  @Test
  void everyLineGetsOneAnswer() throws IOException {
    assertEquals(List.of(FIRST_OUT, SECOND_OUT), answers(FIRST + "\n" + SECOND + "\n"));
    assertTrue(allRead);
  }

  @Test
  void crlfAndAMissingLastEndAreFine() throws IOException {
    assertEquals(List.of(FIRST_OUT, SECOND_OUT), answers(FIRST + "\r\n" + SECOND));
    assertTrue(allRead);
  }

  @Test
  void briefLeavesOutTheCups() throws IOException {
    assertEquals(
        List.of("{\"at\":\"2027-02-14T08:00:00Z\",\"passes\":[],\"alerts\":[],\"receipts\":[]}"),
        answers(FIRST.getBytes(StandardCharsets.UTF_8), true));
  }

  @Test
  void anEmptyInputIsOneError() throws IOException {
    assertEquals(List.of("{\"error\":\"line 1: is missing: the input is empty\"}"), answers(""));
    assertFalse(allRead);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          `` | line 2: is blank: expected a JSON object
          {"at":"2027-02-14T08: | line 2: is not complete JSON: it ends in the middle
          {"at":"2027-02-14T08:01:00Z","mass_g":{"A1":NaN}} | line 2: is not JSON near column 48: Non-standard token 'NaN'
          {"at":"2027-02-14T08:01:00Z","mass_g":{"A1":"heavy"}} | line 2: mass_g.A1: expected a number (or no such field), found a string
          {"at":"2027-02-14T08:01:00Z","mass_g":{"A9":262.1}} | line 2: mass_g.A9: "A9" is not a cup of this bench; known: A1, A2
          {"at":"2027-02-14T07:59:00Z"} | line 2: at: goes back
          {"at":"2027-02-14T08:00:00Z"} | line 2: at: goes back
          {"at":"2027-02-14T08:01:00Z","leak":true} | line 2: could not be decided by a fault of the program (java.lang.IllegalStateException: a fault), and changed nothing
          """)
  void aBadLineIsToldByItsNumberAndTheNextIsAnswered(String bad, String error) throws IOException {
    List<String> answers = answers(FIRST + "\n" + bad + "\n" + SECOND + "\n");
    assertEquals(3, answers.size());
    assertEquals(FIRST_OUT, answers.get(0));
    assertEquals(Map.of("error", error), Json.MAPPER.convertValue(json(answers.get(1)), Map.class));
    assertEquals(SECOND_OUT, answers.get(2));
    assertFalse(allRead);
  }

  @Test
  void aMegabyteOnOneLineIsRefusedAndSkipped() throws IOException {
    String big = "{\"at\":\"2027-02-14T08:01:00Z\",\"x\":\"" + "x".repeat(1 << 20) + "\"}";
    assertEquals(
        List.of(FIRST_OUT, "{\"error\":\"line 2: is longer than 256 KiB\"}", SECOND_OUT),
        answers(FIRST + "\n" + big + "\n" + SECOND));
  }

  @Test
  void binaryIsToldLineByLine() throws IOException {
    byte[] binary = new byte[4096];
    new java.util.Random(7).nextBytes(binary);
    binary[0] = (byte) 0x89;
    List<String> answers = answers(binary, false);
    assertFalse(allRead);
    assertTrue(answers.stream().allMatch(answer -> answer.startsWith("{\"error\":\"line ")));
    assertTrue(adviser.seen.isEmpty());
  }

  @Test
  void aCupAddedOnOneLineIsKnownOnTheNext() throws IOException {
    answers(
        "{\"at\":\"2027-02-14T08:00:00Z\",\"mass_g\":{\"B7\":250},\"orders\":[{\"id\":\"o-1\",\"kind\":\"add\",\"cup\":\"B7\"}]}\n"
            + "{\"at\":\"2027-02-14T08:05:00Z\",\"mass_g\":{\"B7\":249}}\n");
    assertTrue(allRead);
  }

  /** The input hands out a line only once the answer to the one before it is out. */
  @Test
  void eachAnswerComesBeforeTheNextLineIsAskedFor() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    List<String> lines = List.of(FIRST + "\n", SECOND + "\n");
    List<String> outBefore = List.of("", FIRST_OUT + "\n", FIRST_OUT + "\n" + SECOND_OUT + "\n");
    InputStream in =
        new InputStream() {
          private int given;

          @Override
          public int read() {
            throw new AssertionError("bytes are read in chunks");
          }

          @Override
          public int read(byte[] into, int at, int length) {
            assertEquals(outBefore.get(given), out.toString(StandardCharsets.UTF_8));
            if (given == lines.size()) {
              return -1;
            }
            byte[] line = lines.get(given++).getBytes(StandardCharsets.UTF_8);
            System.arraycopy(line, 0, into, at, line.length);
            return line.length;
          }
        };
    assertTrue(session(false, false).run(in, out));
  }

  @Test
  void whenNobodyTakesTheOutputTheSessionEnds() {
    OutputStream closed =
        new OutputStream() {
          @Override
          public void write(int b) throws IOException {
            throw new IOException("Broken pipe");
          }
        };
    assertThrows(
        IOException.class,
        () ->
            session(false, false)
                .run(new ByteArrayInputStream(FIRST.getBytes(StandardCharsets.UTF_8)), closed));
  }

  @Test
  void aTableIsKnownByItsFirstLine() throws IOException {
    assertEquals(
        List.of(FIRST_OUT, SECOND_OUT),
        answers("at,A1\n2027-02-14T08:00:00Z,262.1\n2027-02-14T08:05:00Z,\n"));
    assertTrue(allRead);
    assertEquals(Instant.parse("2027-02-14T08:00:00Z"), adviser.seen.get(0).at());
  }

  @Test
  void aTableWithAWrongHeaderIsRefusedLineByLine() throws IOException {
    List<String> answers = answers("at,A9\n2027-02-14T08:00:00Z,262.1\n");
    assertEquals(2, answers.size());
    assertTrue(
        answers.get(0).startsWith("{\"error\":\"line 1: column 2 \\\"A9\\\" is not a cup"),
        answers.get(0));
    assertTrue(
        answers.get(1).startsWith("{\"error\":\"line 2: cannot be read without a right header:"),
        answers.get(1));
    assertFalse(allRead);
  }
}
