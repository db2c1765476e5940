package dev.cupwarden.core.messages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ObservationReaderTest {
  private static final Set<String> CUPS = Set.of("A1", "A2");
  private static final Set<String> TANKS = Set.of("plain", "feed");
  private static final String FULL =
      "{\"at\":\"2027-02-14T08:00:00Z\",\"air_c\":20.5,\"rh_pct\":48,\"root_c\":19.0,\"light\":120,"
          + "\"mass_g\":{\"A1\":262.1,\"A2\":-202.3},\"theta\":{\"A1\":0.41},"
          + "\"tank_ml\":{\"plain\":9000,\"feed\":2500},\"leak\":true,"
          + "\"clock_in_doubt\":true,\"orders\":[{\"id\":\"o-1\",\"kind\":\"release\"},\"not an order\"]}";

  private static Observation read(String line) throws LineRefused {
    return ObservationReader.read(line, CUPS, TANKS);
  }

  private static String refusal(String line) {
    return assertThrows(LineRefused.class, () -> read(line)).getMessage();
  }

  @Test
  void everyFieldIsRead() throws LineRefused {
    Observation seen = read(FULL);
    assertEquals(Instant.parse("2027-02-14T08:00:00Z"), seen.at());
    assertEquals(OptionalDouble.of(20.5), seen.airC());
    assertEquals(OptionalDouble.of(48), seen.rhPct());
    assertEquals(OptionalDouble.of(19), seen.rootC());
    assertEquals(OptionalDouble.of(120), seen.lightUmolPerM2S());
    assertEquals(Map.of("A1", 262.1, "A2", -202.3), seen.massG());
    assertEquals(Map.of("A1", 0.41), seen.theta());
    assertEquals(Map.of("plain", 9000.0, "feed", 2500.0), seen.tankMl());
    assertTrue(seen.leak());
    assertTrue(seen.clockInDoubt());
    assertEquals(2, seen.orders().size());
    assertEquals("release", seen.orders().get(0).get("kind").asText());
  }

  @Test
  void onlyTheTimeMustBeThere() throws LineRefused {
    Observation seen = read("{\"at\":\"2027-02-14T09:00:00.5+01:00\"}");
    assertEquals(Instant.parse("2027-02-14T08:00:00.5Z"), seen.at());
    assertTrue(seen.airC().isEmpty());
    assertTrue(seen.massG().isEmpty());
    assertFalse(seen.leak());
    assertFalse(seen.clockInDoubt());
    assertTrue(seen.orders().isEmpty());
  }

  @Test
  void aWildMassIsTheScalesFaultNotTheLines() throws LineRefused {
    assertEquals(
        Map.of("A1", 1e300),
        read("{\"at\":\"2027-02-14T08:00:00Z\",\"mass_g\":{\"A1\":1e300}}").massG());
  }

  @Test
  void aCupMayBeWeighedOnTheLineThatAddsIt() throws LineRefused {
    String line =
        "{\"at\":\"2027-02-14T08:00:00Z\",\"mass_g\":{\"B7\":250},"
            + "\"orders\":[{\"id\":\"o-1\",\"kind\":\"add\",\"cup\":\"B7\"}]}";
    assertEquals(Map.of("B7", 250.0), read(line).massG());
    assertEquals(
        "mass_g.B7: \"B7\" is not a cup of this bench; known: A1, A2",
        refusal(line.replace("\"add\"", "\"stage\"")));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          "air_c" | "air" | "air" is not a known field; known: at, air_c, rh_pct, root_c, outdoor_c, light, mass_g, theta, tank_ml, leak, leak_unread, clock_in_doubt and 4 more
          "rh_pct" | "air_c" | "air_c" is given twice
          "A2" | "A1" | "A1" is given twice
          "id":"o-1" | "kind":"hold" | "kind" is given twice
          "A2" | "A3" | mass_g.A3: "A3" is not a cup of this bench; known: A1, A2
          {"A1":0.41} | {"A9":0.41} | theta.A9: "A9" is not a cup of this bench; known: A1, A2
          "plain" | "rain" | tank_ml.rain: "rain" is not a tank of this bench; known: feed, plain
          262.1 | "262.1" | mass_g.A1: expected a number (or no such field), found a string
          262.1 | null | mass_g.A1: expected a number (or no such field), found null
          262.1 | 1e999 | mass_g.A1: is not a finite number
          262.1 | NaN | is not JSON near column 99: Non-standard token 'NaN'
          262.1 | -Infinity | is not JSON
          262.1 | [1] | mass_g.A1: expected a number (or no such field), found an array
          20.5 | -80 | air_c: -80.0 is out of range: expected -60 to 80 C
          20.5 | true | air_c: expected a number (or no such field), found true or false
          48 | 100.1 | rh_pct: 100.1 is out of range: expected 0 to 100 %
          19.0 | 99 | root_c: 99.0 is out of range: expected -60 to 80 C
          120 | -1 | light: -1.0 is out of range: expected 0 to 4000 umol m-2 s-1
          0.41 | 41 | theta.A1: 41.0 is out of range: expected 0 to 1
          9000 | -1 | tank_ml.plain: -1.0 is out of range: expected 0 to 1000000 mL
          "leak":true | "leak":1 | leak: expected true or false, found a number
          "clock_in_doubt":true | "clock_in_doubt":"yes" | clock_in_doubt: expected true or false, found a string
          {"plain":9000,"feed":2500} | 9000 | tank_ml: expected a JSON object, found a number
          "orders":[ | "orders":{}, "x":[ | orders: expected an array, found an object
          "2027-02-14T08:00:00Z" | 1802592000 | at: expected a string, found a number
          "2027-02-14T08:00:00Z" | "2027-02-14" | at: "2027-02-14" is not a time: expected RFC 3339, such as 2027-02-14T08:00:00Z
          "2027-02-14T08:00:00Z" | "2027-02-14T08:00:00" | at: "2027-02-14T08:00:00" is not a time: expected RFC 3339, such as 2027-02-14T08:00:00Z
          "2027-02-14T08:00:00Z" | "2027-02-30T08:00:00Z" | at: "2027-02-30T08:00:00Z" is a time that does not exist
          "at":"2027-02-14T08:00:00Z", | `` | at: is missing: expected the time of the readings
          """)
  void aWrongFieldRefusesTheLine(String was, String is, String sentence) {
    String line = FULL.replace(was, is);
    assertFalse(line.equals(FULL), "nothing was edited");
    String told = refusal(line);
    assertTrue(told.startsWith(sentence), told);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " \t",
        "[]",
        "null",
        "7",
        "\"at\"",
        "{} {}",
        "{\"at\"}",
        "{at:1}",
        "nonsense",
        "\u0000\u0001\u0002",
        "{\"at\":\"2027-02-14T08:00:00Z\",}",
        "{\"at\":\"2027-02-14T08:00:00Z\"} trailing",
        "{'at':'2027-02-14T08:00:00Z'}",
        "{\"at\":\"2027-02-14T08:00:00Z\",\"orders\":null}"
      })
  void whatIsNoObjectIsRefused(String line) {
    assertFalse(refusal(line).contains("\n"));
  }

  @Test
  void deepNestingIsRefused() {
    String line =
        "{\"at\":\"2027-02-14T08:00:00Z\",\"orders\":["
            + "[".repeat(100_000)
            + "]".repeat(100_000)
            + "]}";
    assertEquals("is not usable JSON: nested or written beyond any sense", refusal(line));
  }

  @Property
  void everyTruncationIsRefused(@ForAll @IntRange(min = 0, max = 10_000) int cut) {
    String line = FULL.substring(0, cut % FULL.length());
    String told = refusal(line);
    assertTrue(
        told.equals("is not complete JSON: it ends in the middle")
            || told.startsWith("is not JSON")
            || told.startsWith("is blank"),
        told);
  }
}
