package dev.cupwarden.host.review;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;

/** Readings as other programs take them. */
final class ReadingLines {

  /** Series of the whole bench, and the field of {@code advise} that each is. */
  private static final Map<String, String> OF_THE_BENCH =
      Map.of(
          "air/temperature", "air_c",
          "air/humidity", "rh_pct",
          "root/temperature", "root_c",
          "outdoor/temperature", "outdoor_c",
          "light", "light");

  /** The last part of a series of one cup or tank, and the field that holds it by name. */
  private static final Map<String, String> BY_NAME =
      Map.of("mass", "mass_g", "theta", "theta", "volume", "tank_ml");

  private ReadingLines() {}

  /** One line a moment, as {@code advise} reads them. */
  static void advise(Store store, Asked asked, Writer out) throws IOException {
    Moments.each(
        store,
        asked,
        (at, values) -> {
          ObjectNode line = Json.MAPPER.createObjectNode().put("at", at.toString());
          values.forEach((name, value) -> put(line, name, value));
          if (line.size() > 1) {
            out.write(line + "\n");
          }
        });
  }

  private static void put(ObjectNode line, String series, double value) {
    String field = OF_THE_BENCH.get(series);
    if (field != null) {
      line.put(field, value);
      return;
    }
    int slash = series.lastIndexOf('/');
    String group = slash < 0 ? null : BY_NAME.get(series.substring(slash + 1));
    if (group != null) {
      line.withObject("/" + group).put(series.substring(0, slash), value);
    }
  }

  /** One SenML pack (RFC 8428): the base name once, a time and a unit with each record. */
  static void senml(Store store, Asked asked, Writer out) throws IOException {
    Map<String, String> units = new HashMap<>();
    for (String name : store.readings().names(asked.bench())) {
      store.readings().unit(asked.bench(), name).ifPresent(unit -> units.put(name, unit));
    }
    String[] before = {"["};
    Moments.each(
        store,
        asked,
        (at, values) -> {
          for (Map.Entry<String, Double> each : values.entrySet()) {
            ObjectNode record = record(at, each, units);
            if (before[0].equals("[")) {
              record.put("bn", asked.bench() + "/");
            }
            out.write(before[0] + record);
            before[0] = ",\n";
          }
        });
    out.write(before[0].equals("[") ? "[]" : "]");
  }

  private static ObjectNode record(
      Instant at, Map.Entry<String, Double> each, Map<String, String> units) {
    ObjectNode record = Json.MAPPER.createObjectNode().put("n", each.getKey());
    if (units.containsKey(each.getKey())) {
      record.put("u", units.get(each.getKey()));
    }
    return record.put("t", Elapsed.epochSeconds(at)).put("v", each.getValue());
  }
}
