package dev.cupwarden.host.review;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.Setups.CupRow;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A formula in whatever text a table has: what begins one is OWASP's list (CSV injection). */
class FormulasTest {
  @TempDir Path folder;

  private static ObjectNode with(String evil, String... fields) {
    ObjectNode data = Json.MAPPER.createObjectNode();
    for (String field : fields) {
      data.put(field, evil);
    }
    return data;
  }

  private static EventRow event(long seq, String kind, String cup, ObjectNode data) {
    return new EventRow("sill", "e", seq, EIGHT, kind, cup, data.toString());
  }

  private static void fill(Store store, String evil) {
    store.write(
        handle -> {
          store.benches().touch(handle, "sill");
          store
              .readings()
              .insert(handle, List.of(new Reading("sill", evil + "/mass", evil, EIGHT, -1.5)));
          store.events().insert(handle, event(1, "dose", evil, with(evil, "why", "outcome")));
          ObjectNode alert = with(evil, "code", "state", "since", "do");
          store.events().insert(handle, event(2, "alert", evil, alert));
          ObjectNode cup = with(evil, "plant", "mix", "vessel", "struck", "stage");
          store
              .setups()
              .put(
                  handle,
                  "sill",
                  EIGHT,
                  "{}",
                  new TreeMap<>(Map.of(evil, new CupRow(evil, "", cup.toString()))));
        });
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "\n=1",
        "=1\n2",
        " =1",
        "\uFF1D1+1"
      })
  void noCellOfTextIsOne(String evil) throws IOException {
    try (Store store = Store.open(Database.sqlite(folder.resolve("host.db")))) {
      fill(store, evil);
      for (Export each : Export.values()) {
        if (!each.contentType().equals("text/csv")) {
          continue;
        }
        StringWriter out = new StringWriter();
        each.write(store, new Asked("sill", EIGHT, EIGHT.plusSeconds(1)), out);
        List<CSVRecord> rows =
            CSVFormat.RFC4180.parse(new StringReader(out.toString())).getRecords();
        assertEquals(2, rows.size(), out::toString);
        for (String cell : rows.get(1)) {
          assertTrue(
              cell.equals("-1.5") || !cell.strip().matches("(?s)[=+@\uFF1D-].*"), out::toString);
          assertTrue(cell.isEmpty() || "\t\r\n".indexOf(cell.charAt(0)) < 0, out::toString);
        }
      }
    }
  }

  @Test
  void whatIsNoFormulaStaysAsItIs() throws IOException {
    StringWriter out = new StringWriter();
    CsvTable table = new CsvTable(out, "text", "number", "nothing");
    table.row("a=b, c", -1.5, null);
    table.flush();
    assertEquals("text,number,nothing\r\n\"a=b, c\",-1.5,\r\n", out.toString());
  }
}
