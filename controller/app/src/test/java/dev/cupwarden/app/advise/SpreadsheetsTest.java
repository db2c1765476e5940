package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A day or two of weighings as spreadsheets of several countries save them; each is made here. */
class SpreadsheetsTest {
  private static final Set<String> CUPS = Set.of("A1", "A2");
  private static final Instant EIGHT_IN_BERLIN = Instant.parse("2027-02-14T07:00:00Z");
  private static final Instant EIGHT_IN_CHICAGO = Instant.parse("2027-02-14T14:00:00Z");
  private static final double TENTH_MG = 1e-4;

  private final List<String> aside = new ArrayList<>();

  private List<Observation> read(String zone, String table) throws LineRefused {
    ZoneId place = ZoneId.of(zone);
    CsvLines csv =
        new CsvLines(
            new SpreadsheetTime(place, DateOrder.usualAt(place), LocalTime.of(6, 30)),
            Set.of("plain"),
            aside::add);
    List<String> lines = table.lines().toList();
    assertTrue(CsvLines.isHeader(lines.get(0)), lines.get(0));
    List<Observation> seen = new ArrayList<>();
    for (String line : lines) {
      csv.read(line, CUPS).ifPresent(seen::add);
    }
    csv.end().ifPresent(seen::add);
    return seen;
  }

  private void assertOneDay(String zone, Instant at, String table) throws LineRefused {
    List<Observation> seen = read(zone, table);
    assertEquals(1, seen.size());
    assertEquals(at, seen.get(0).at());
    assertEquals(312.4, seen.get(0).massG().get("A1"), TENTH_MG);
    assertEquals(301.0, seen.get(0).massG().get("A2"), TENTH_MG);
  }

  @Test
  void semicolonsAndDecimalCommas() throws LineRefused {
    assertOneDay("Europe/Berlin", EIGHT_IN_BERLIN, "Datum;A1;A2\n14.02.2027 08:00;312,4;301\n");
    assertEquals(List.of("Times without a zone are by the clocks of Europe/Berlin."), aside);
  }

  @Test
  void secondsShortYearsAndALineThatNamesTheSeparator() throws LineRefused {
    assertOneDay(
        "Europe/Berlin", EIGHT_IN_BERLIN, "sep=;\nDatum;A1;A2\n14.2.27 08:00:00;312,4;301");
  }

  @Test
  void daysAndHoursInColumnsOfTheirOwn() throws LineRefused {
    assertOneDay(
        "Europe/Berlin",
        EIGHT_IN_BERLIN,
        "Datum;Uhrzeit;A1 (kg);A2 (g);Bemerkung\n14.02.2027;08:00;0,3124;301;Knospe offen\n");
  }

  @Test
  void monthsFirstInTheUnitedStates() throws LineRefused {
    assertOneDay("America/Chicago", EIGHT_IN_CHICAGO, "Date,A1,A2\n2/14/2027 8:00,312.4,301\n");
    assertOneDay(
        "America/Chicago", EIGHT_IN_CHICAGO, "Date,A1,A2\n02/14/27 8:00:00 AM,312.4,301\n");
  }

  @Test
  void ouncesAndPounds() throws LineRefused {
    assertOneDay(
        "America/Chicago",
        EIGHT_IN_CHICAGO,
        "Date\tTime\tA1 oz\tA2 [lb]\n2/14/2027\t8:00 AM\t11.019586\t0.66359143\n");
  }

  @Test
  void daysFirstInBritain() throws LineRefused {
    Instant third = Instant.parse("2027-02-03T08:00:00Z");
    assertOneDay("Europe/London", third, "Date,A1,A2,Notes\n03/02/2027 08:00,312.4,301,\"a, b\"\n");
  }

  @Test
  void theYearFirst() throws LineRefused {
    Instant at = Instant.parse("2027-02-13T23:00:00Z");
    assertOneDay("Asia/Tokyo", at, "Date,A1,A2\n2027/2/14 8:00,312.4,301\n");
    assertOneDay("Europe/Stockholm", EIGHT_IN_BERLIN, "Datum;A1;A2\n2027-02-14 08:00;312,4;301\n");
  }

  @Test
  void aDayWithoutAnHourIsTheFirstOpenOne() throws LineRefused {
    assertOneDay(
        "Europe/Berlin",
        Instant.parse("2027-02-14T05:30:00Z"),
        "Datum;A1;A2\n14.02.2027;312,4;301\n");
    assertEquals(
        List.of("A day without an hour means 06:30 by the clocks of Europe/Berlin."), aside);
  }

  @Test
  void aRowForEachWeighing() throws LineRefused {
    List<Observation> seen =
        read(
            "Europe/Berlin",
            """
            Datum;Becher;Gewicht (g);Notiz
            14.02.2027 08:00;A1;312,4;
            14.02.2027 08:00;A2;301;feucht
            15.02.2027 08:00;A1;305,1;
            """);
    assertEquals(2, seen.size());
    assertEquals(Map.of("A1", 312.4, "A2", 301.0), seen.get(0).massG());
    assertEquals(Map.of("A1", 305.1), seen.get(1).massG());
  }

  @Test
  void whatIsNotUnderstoodIsRefusedInOneSentence() {
    assertRefused(
        "America/Toronto",
        "Date,A1\n2/3/2027 8:00,312.4\n",
        "at: \"2/3/2027 8:00\" may be day or month first: say --dates day-first or --dates"
            + " month-first, or name the bench's place");
    assertRefused(
        "Europe/Berlin",
        "Datum;A1\n14.02.2027 08:00;1.312,4\n",
        "A1: \"1.312,4\" is not a number: expected one such as 312,4 or 312.4, or nothing");
    assertRefused(
        "Europe/Berlin",
        "Datum;Becher;Gewicht\n14.02.2027;A1;312\n14.02.2027;A1;311\n",
        "cup: A1 has two weights at one time");
    assertRefused(
        "Europe/Berlin",
        "Datum;Becher;Gewicht\n14.02.2027;;312\n",
        "cup: is missing: expected whose weight it is");
    assertRefused(
        "Europe/Berlin",
        "Datum;Becher;Gewicht\n;A1;312\n",
        "at: is missing: expected the time of the readings");
    assertRefused(
        "Europe/Berlin",
        "Datum;Becher;Gewicht\n14.02.2027;a1;312\n",
        "cup: \"a1\" is not a cup of this bench; did you mean A1?");
  }

  private void assertRefused(String zone, String table, String sentence) {
    assertEquals(sentence, assertThrows(LineRefused.class, () -> read(zone, table)).getMessage());
  }
}
