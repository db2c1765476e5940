package dev.cupwarden.core.messages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.watering.Cause;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Each sentence stands once, in one file, and each row of a table has its own. */
class CatalogueTest {
  private static JsonNode schema() throws Exception {
    try (InputStream file =
        CatalogueTest.class.getResourceAsStream(
            "/dev/cupwarden/core/messages/schema/common.schema.json")) {
      return new ObjectMapper().readTree(file);
    }
  }

  private static List<String> texts(JsonNode array) {
    List<String> all = new ArrayList<>();
    array.forEach(one -> all.add(one.asText()));
    return all;
  }

  @Test
  void alertsOfTheTableAreThoseOfTheContractEachOnce() throws Exception {
    List<String> contract = texts(schema().at("/$defs/alert/properties/code/anyOf/0/enum"));
    assertEquals(contract.size(), new TreeSet<>(contract).size(), "a code stands twice");
    Set<String> table =
        Arrays.stream(AlertCode.values())
            .map(AlertCode::word)
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(new TreeSet<>(contract), table);
  }

  @Test
  void everyAlertSaysWhatToDo() {
    for (AlertCode code : AlertCode.values()) {
      assertFalse(code.whatToDo().isBlank(), code.word());
      assertFalse(code.called().isBlank(), code.word());
    }
  }

  /** In the order of the contract, which is that of reporting. */
  @Test
  void limitsOfTheTableAreThoseOfTheContractEachOnce() throws Exception {
    List<String> contract = texts(schema().at("/$defs/limit/enum"));
    assertEquals(contract.size(), new TreeSet<>(contract).size(), "a code stands twice");
    assertEquals(contract, Arrays.stream(LimitCode.values()).map(LimitCode::word).toList());
  }

  @Test
  void whatMayBeLiftedIsThatOfTheContract() throws Exception {
    try (InputStream file =
        CatalogueTest.class.getResourceAsStream(
            "/dev/cupwarden/core/messages/schema/order.schema.json")) {
      JsonNode order = new ObjectMapper().readTree(file);
      assertEquals(
          new TreeSet<>(texts(order.findValue("lift").at("/items/enum"))),
          new TreeSet<>(LimitCode.liftable()));
    }
  }

  /** What was found, its name, what ends it, what to do. */
  @Test
  void everyLimitHasItsSentences() {
    for (LimitCode code : LimitCode.values()) {
      assertTrue(Catalogue.has("limit." + code.word()), code.word());
      assertFalse(code.called().isBlank(), code.word());
      assertFalse(code.clears().isBlank(), code.word());
      assertFalse(code.whatToDo().isBlank(), code.word());
    }
  }

  /** {@code limit.untrusted.CODE}, beside the limit's own three. */
  @Test
  void everyReasonOfDistrustHasItsSentenceAndEachSuchSentenceAReason() {
    String limit = "limit." + LimitCode.UNTRUSTED.word() + ".";
    Set<String> known = new TreeSet<>(Set.of(limit + "name", limit + "clears", limit + "do"));
    for (DistrustCode code : DistrustCode.values()) {
      assertTrue(known.add(limit + code.word()), code.word() + " stands twice");
    }
    Set<String> sentences = new TreeSet<>(Catalogue.keys());
    sentences.removeIf(key -> !key.startsWith(limit));
    assertEquals(known, sentences);
  }

  @Test
  void everyFailedScaleIsToldByTheAlertOfItsName() {
    for (DistrustCode code : DistrustCode.values()) {
      assertTrue(code.alert().isPresent() || !code.scaleFailed(), code.word());
      code.alert().ifPresent(alert -> assertEquals(alert.word(), code.word()));
    }
  }

  @Test
  void distrustSaysWhatWasFoundInWords() {
    assertEquals(
        "no reading for 31 min, 30 at most",
        Sentences.of(new Reason("untrusted", 31.0, 30.0, "min", "scale-silent")));
  }

  @Test
  void whyIsThatOfTheContractAndWaterOfTheProgramItselfHasEachItsOwn() throws Exception {
    Set<String> words = Arrays.stream(Cause.values()).map(Cause::word).collect(Collectors.toSet());
    assertEquals(new TreeSet<>(texts(schema().at("/$defs/why/enum"))), new TreeSet<>(words));
    assertNotEquals(Cause.FORECAST.word(), Cause.BLIND.word());
  }

  @Test
  void noKeyIsThatOfNoAlertAndNoLimit() {
    Set<String> words =
        Arrays.stream(AlertCode.values()).map(AlertCode::word).collect(Collectors.toSet());
    Set<String> limits =
        Arrays.stream(LimitCode.values()).map(LimitCode::word).collect(Collectors.toSet());
    for (String key : Catalogue.keys()) {
      String[] parts = key.split("\\.");
      Set<String> known =
          switch (parts[0]) {
            case "limit" -> limits;
            case "alert" -> words;
            case "advice" -> Set.of("air", "water");
            default -> Set.of();
          };
      assertTrue(known.contains(parts[1]), key);
    }
  }

  @Test
  void everySentenceStandsInTheFileOnceAndNoKeyTwice() throws Exception {
    Path file = Path.of(CatalogueTest.class.getResource("english.properties").toURI());
    List<String> keys;
    try (Stream<String> lines = Files.lines(file)) {
      keys =
          lines
              .filter(line -> !line.isBlank() && !line.startsWith("#"))
              .map(line -> line.substring(0, line.indexOf('=')))
              .toList();
    }
    assertEquals(keys.size(), new TreeSet<>(keys).size(), "a key stands twice");
    assertEquals(Catalogue.keys(), new TreeSet<>(keys));
  }

  @Test
  void aKeyThatIsNotThereIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> Catalogue.say("alert.none.do"));
  }

  @Test
  void limitsSayWhatWasFoundInWords() {
    assertEquals(
        "outside the watering window, which opens in 1.5 h",
        Sentences.of(new Reason("window", 90.0, 0.0, "min")));
    assertEquals(
        "12 mL of 20 mL, half of its room, which a rescue or a person has once in 24 h",
        Sentences.of(new Reason("day-volume", 12.0, 20.0, "mL", "half-room")));
    assertEquals(
        "stopped by valve-leaking until a person clears it",
        Sentences.of(new Reason("hardware", 3.0, 1.0, "", "valve-leaking")));
  }
}
