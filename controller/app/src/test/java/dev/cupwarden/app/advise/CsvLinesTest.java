package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CsvLinesTest {
  private static final Set<String> CUPS = Set.of("A1", "A2", "light");
  private final CsvLines csv =
      new CsvLines(
          new SpreadsheetTime(ZoneId.of("Europe/London"), Optional.empty(), LocalTime.NOON),
          Set.of("plain", "feed"),
          aside -> {});

  private Observation row(String header, String line) throws LineRefused {
    assertTrue(csv.read(header, CUPS).isEmpty());
    return csv.read(line, CUPS).orElseThrow();
  }

  @Test
  void everyColumnGoesToItsPlace() throws LineRefused {
    Observation seen =
        row(
            "at, A1 ,air_c,\"rh_pct\",root_c,light,cup:light,theta:A1,tank:plain,A2",
            "2027-02-14T08:00:00Z, 262.1 ,20.5,\"48\",19,120,301,0.41,9000,");
    assertEquals(Instant.parse("2027-02-14T08:00:00Z"), seen.at());
    assertEquals(Map.of("A1", 262.1, "light", 301.0), seen.massG());
    assertEquals(OptionalDouble.of(20.5), seen.airC());
    assertEquals(OptionalDouble.of(48), seen.rhPct());
    assertEquals(OptionalDouble.of(19), seen.rootC());
    assertEquals(OptionalDouble.of(120), seen.lightUmolPerM2S());
    assertEquals(Map.of("A1", 0.41), seen.theta());
    assertEquals(Map.of("plain", 9000.0), seen.tankMl());
    assertTrue(seen.orders().isEmpty());
  }

  /** Britain is an hour ahead of UTC in June, and level with it in February. */
  @ParameterizedTest
  @CsvSource({
    "2027-02-14 08:00, 2027-02-14T08:00:00Z",
    "2027-06-14 08:00, 2027-06-14T07:00:00Z",
    "2027-06-14T08:00:30, 2027-06-14T07:00:30Z",
    "2027-06-14T08:00:30+03:00, 2027-06-14T05:00:30Z",
    "2026-10-25 01:30, 2026-10-25T00:30:00Z"
  })
  void timesAreTakenOnTheGrowersClock(String cell, Instant at) throws LineRefused {
    assertEquals(at, row("at", cell).at());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "at",
        "at,A1",
        "\"at\",\"A1\"",
        "at;A1",
        " at , A1",
        "at\tA1",
        "Datum;A1",
        "sep=;"
      })
  void aHeaderIsKnownByItsFirstCell(String line) {
    assertTrue(CsvLines.isHeader(line));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "{\"at\":1}", "attic,A1", "A1,at", "2027-02-14T08:00:00Z,1"})
  void otherLinesAreNoHeader(String line) {
    assertFalse(CsvLines.isHeader(line));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          at,A9 | column 2 "A9" is not a cup of this bench, nor one of the other columns; known: A1, A2, light
          at,A1,A1 | column 3 "A1" is given twice
          at,A1,cup:A1 | column 3 "cup:A1" is given twice
          at,A1,at | column 3 "at" is not a cup of this bench, nor one of the other columns; known: A1, A2, light
          A1,at | column 1 "A1": expected the time first, named at or Date
          at,a1 | column 2 "a1" is not a cup of this bench, nor one of the other columns; did you mean A1?
          at,cup | has no column of weights: expected one, such as weight (g)
          at,weight | has weights and does not say of which cup: expected a column cup, or a column for each cup
          at,tank:rain | column 2 "tank:rain" is not a tank of this bench; known: feed, plain
          at,theta:A9 | column 2 "theta:A9" is not a cup of this bench; known: A1, A2, light
          at,vat:A1 | column 2 "vat:A1": expected cup:, theta: or tank: before a name
          at,,A1 | column 2 "" is not a cup of this bench, nor one of the other columns; known: A1, A2, light
          """)
  void aWrongHeaderNamesItsColumn(String header, String sentence) {
    assertEquals(
        sentence, assertThrows(LineRefused.class, () -> csv.read(header, CUPS)).getMessage());
    assertEquals(
        "cannot be read without a right header: " + sentence,
        assertThrows(LineRefused.class, () -> csv.read("2027-02-14T08:00:00Z,1", CUPS))
            .getMessage());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          2027-02-14T08:00:00Z,heavy,20 | A1: "heavy" is not a number: expected one such as 312.4, or nothing
          2027-02-14T08:00:00Z,"312,4",20 | A1: "312,4" is not a number: expected one such as 312.4, or nothing
          2027-02-14T08:00:00Z,NaN,20 | A1: "NaN" is not a number: expected one such as 312.4, or nothing
          2027-02-14T08:00:00Z,1e999,20 | mass_g.A1: is not a finite number
          2027-02-14T08:00:00Z,300,120 | air_c: 120.0 is out of range: expected -60 to 80 C
          2027-02-14T08:00:00Z,300 | has 2 cells: expected 3, as in the header
          2027-02-14T08:00:00Z,300,20,1 | has 4 cells: expected 3, as in the header
          ,300,20 | at: is missing: expected the time of the readings
          yesterday,300,20 | at: "yesterday" is not a time: expected one such as 2027-02-14 08:00 or 2027-02-14T08:00:00Z
          2/3/2027 08:00,300,20 | at: "2/3/2027 08:00" may be day or month first: say --dates day-first or --dates month-first, or name the bench's place
          2027-02-14 13:00 PM,300,20 | at: "2027-02-14 13:00 PM" is a time that does not exist
          2027-02-30 08:00,300,20 | at: "2027-02-30 08:00" is a time that does not exist
          2027-03-28 01:30,300,20 | at: "2027-03-28 01:30" is skipped by the clocks of Europe/London
          2027-02-14T08:00:00Z,"300,20 | has a quote that is not closed, or stands in the midst of a cell
          `` | is blank: expected cells between commas
          """)
  void aWrongRowIsRefused(String row, String sentence) throws LineRefused {
    csv.read("at,A1,air_c", CUPS);
    assertEquals(sentence, assertThrows(LineRefused.class, () -> csv.read(row, CUPS)).getMessage());
  }
}
