package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Json;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup that is added by an order goes through the checks of the bench file. */
class CupKeysTest {
  private static final String ORDER =
      """
      {"id":"o-1","kind":"add","by":"host","issued":"2027-02-14T08:00:00Z","expires":"2027-02-15T08:00:00Z",
       "cup":"A3","vessel":"tall","mix":"coir-perlite","plant":"vine","struck":"2027-01-05",
       "stage":"white","cutting":"0.5 oz","lines":{"due":0.45,"refill":0.1,"dry":0.8}}""";

  private static Cup added(String order) throws SetupException {
    try {
      Bench bench = BenchTexts.backRoomBench();
      return CupKeys.fromOrder(Json.MAPPER.readTree(order), bench, bench.cups().values());
    } catch (JsonProcessingException badTest) {
      throw new IllegalArgumentException(badTest);
    }
  }

  @Test
  void theOrdersKeysAreThoseOfTheFile() throws SetupException {
    assertEquals(
        new Cup(
            "A3",
            "tall",
            "coir-perlite",
            "vine",
            Optional.of(LocalDate.of(2027, 1, 5)),
            RootStage.WHITE,
            14.1747615625,
            Optional.of(new StageLines(0.45, 0.1, 0.8)),
            Cup.Wiring.NONE),
        added(ORDER));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          "coir-perlite" | "cour" | mix: "cour" is not a mix of this bench; known: coir-perlite
          "coir-perlite" | 7 | mix: "7" is not text: put it in quotes if it is meant as a name
          "coir-perlite" | null | mix: is empty: expected text
          "coir-perlite" | {} | mix: a group of keys stands where text is expected
          "0.5 oz" | 14 | cutting: "14" has no unit: expected a mass in one of g, kg, oz
          "plant" | "plnt" | plnt: "plnt" is not a key here; known: vessel, mix, plant, struck, stage, cutting, lines, covered, scale, valve, probe
          "plant" | "covered":"no","plant" | covered: "no" is neither true nor false
          "plant":"vine", | `` | plant: is missing: expected what was struck
          "due":0.45 | "due":"0.45" | lines.due: "0.45" is not a number: expected 0 to 1
          "A3" | "A/3" | cup: "A/3" cannot be a name on the wire: expected 1 to 32 letters A to Z, digits, '-', '_' or '.', beginning with a letter or digit
          "A3" | 3 | cup: is missing: expected the new cup's name
          """)
  void wrongKeysAreRefusedByTheSameSentences(String was, String is, String sentence) {
    String order = ORDER.replace(was, is);
    assertEquals(sentence, assertThrows(SetupException.class, () -> added(order)).getMessage());
  }
}
