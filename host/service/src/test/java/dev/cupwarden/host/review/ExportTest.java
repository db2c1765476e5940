package dev.cupwarden.host.review;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.substrate.DryDown;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.Store;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExportTest {
  private static final Instant END = EIGHT.plus(Duration.ofDays(30));
  private static final Asked ALL = new Asked("sill", EIGHT, END);
  private static final double HALF_LIFE_H = 20;
  @TempDir Path folder;
  private Store store;

  @BeforeEach
  void fill() {
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    store.write(
        handle -> {
          store.benches().touch(handle, "sill");
          store
              .benches()
              .cup(
                  handle,
                  "sill",
                  "A1",
                  EIGHT,
                  Json.MAPPER.valueToTree(Spoken.cup("A1", EIGHT, 300)).toString());
          store.readings().insert(handle, readings());
        });
    event(1, "dose", Json.MAPPER.valueToTree(new Dose("A1", 20, 5, 0.25, "due", "given")));
    event(
        2,
        "alert",
        Json.MAPPER.valueToTree(
            new AlertNotice("near-dry", "A1", "raised", EIGHT, 0.8, 0.75, "=Water it, now")));
  }

  @AfterEach
  void close() {
    store.close();
  }

  private void event(long seq, String kind, JsonNode data) {
    Instant at = EIGHT.plus(Duration.ofDays(3));
    store.write(
        handle ->
            store
                .events()
                .insert(handle, new EventRow("sill", "e", seq, at, kind, "A1", data.toString())));
  }

  /** Two dry-downs of three days each, halving what can dry in twenty hours; a dose in between. */
  private static List<Reading> readings() {
    List<Reading> readings = new ArrayList<>();
    for (int quarter = 0; quarter < 2 * 72 * 4; quarter++) {
      Instant at = EIGHT.plus(Duration.ofMinutes(15L * quarter));
      double hours = (quarter % (72 * 4)) / 4.0;
      double massG = 200 + 120 * Math.pow(0.5, hours / HALF_LIFE_H);
      readings.add(new Reading("sill", "A1/mass", "g", at, Math.round(massG * 100) / 100.0));
      readings.add(new Reading("sill", "air/temperature", "Cel", at, 20.5));
      readings.add(new Reading("sill", "air/humidity", "%RH", at, 40));
    }
    readings.add(new Reading("sill", "plain/volume", "ml", EIGHT, 9000));
    return readings;
  }

  private String export(Export what) throws IOException {
    StringWriter out = new StringWriter();
    what.write(store, ALL, out);
    return out.toString();
  }

  @Test
  void readingsAreRowsWithUnits() throws IOException {
    List<String> rows = export(Export.READINGS).lines().toList();
    assertEquals("at,series,unit,value", rows.get(0));
    assertEquals(EIGHT + ",A1/mass,g,320.0", rows.get(1));
    assertEquals(1 + 3 * 576 + 1, rows.size());
  }

  @Test
  void dosesAlertsAndTheSeasonAreTables() throws IOException {
    String at = EIGHT.plus(Duration.ofDays(3)).toString();
    assertEquals(
        List.of("at,cup,plain_ml,feed_ml,strength,why,outcome", at + ",A1,20.0,5.0,0.25,due,given"),
        export(Export.DOSES).lines().toList());
    String alert = export(Export.ALERTS).lines().toList().get(1);
    assertTrue(alert.contains("\"'=Water it, now\""), "no spreadsheet runs it: " + alert);
    assertEquals(
        "A1,currant,,,,white,,,unknown,1,20.0,5.0," + at + "," + at + ",1",
        export(Export.SEASON).lines().toList().get(1));
  }

  /** The reader is the one that advise itself uses. */
  @Test
  void adviseLinesAreReadByAdvise() throws Exception {
    List<String> lines = export(Export.ADVISE).lines().toList();
    assertEquals(576, lines.size());
    Observation first = ObservationReader.read(lines.get(0), Set.of("A1"), Set.of("plain"));
    assertEquals(EIGHT, first.at());
    assertEquals(320.0, first.massG().get("A1"));
    assertEquals(9000.0, first.tankMl().get("plain"));
    assertEquals(20.5, first.airC().orElseThrow());
    for (String line : lines) {
      ObservationReader.read(line, Set.of("A1"), Set.of("plain"));
    }
  }

  @Test
  void senmlIsOnePackWithTheBaseNameOnce() throws IOException {
    JsonNode pack = Json.MAPPER.readTree(export(Export.SENML));
    assertEquals(3 * 576 + 1, pack.size());
    assertEquals("sill/", pack.at("/0/bn").asText());
    assertTrue(pack.at("/1/bn").isMissingNode());
    assertEquals(EIGHT.getEpochSecond(), pack.at("/0/t").asLong());
    assertEquals("[]", emptySenml());
  }

  private String emptySenml() throws IOException {
    StringWriter out = new StringWriter();
    Export.SENML.write(store, new Asked("sill", END, END.plusSeconds(1)), out);
    return out.toString();
  }

  @Test
  void dryDownsAreCutAtTheDoseAndFindTheHalfLifeThatWasPutIn() throws Exception {
    List<DryDown> found = StoredDryDowns.of(store, ALL, "A1");
    assertEquals(2, found.size());
    for (DryDown each : found) {
      assertEquals(HALF_LIFE_H, each.halfLifeH().orElseThrow(), 1.0);
      assertTrue(each.hours() > 70 && each.lostG() > 80, each.hours() + " h, " + each.lostG());
    }
    assertEquals(EIGHT, found.get(0).from());
    assertEquals(List.of(false, true), found.stream().map(DryDown::startSeen).toList());
    // By hand, two whole days: 120 · (1 − 0.5^2.4) = 97.26 g in 48 h, 2.0263 g/h. At 20.5 °C
    // (2.412 kPa, FAO-56, equation 11) and 40 % it is 1.447 + 0.1 kPa of drying power.
    assertEquals(1.310, found.get(0).loss().orElseThrow().gPerHPerKpa(), 0.001);
    assertEquals(3, StoredDryDowns.table(store, ALL, found).lines().count());
    String svg = DryDownPicture.of("Cup <A1> & more", found);
    var document =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
    assertEquals(4, document.getElementsByTagName("polyline").getLength());
  }

  @Test
  void whatIsNotThereIsToldInASentence() {
    assertThrows(
        HostException.class,
        () -> Export.DOSES.write(store, new Asked("nobody", EIGHT, END), new StringWriter()));
    assertThrows(HostException.class, () -> StoredDryDowns.of(store, ALL, "Z9"));
  }
}
