package dev.cupwarden.app.journal;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import java.util.Map;
import java.util.OptionalDouble;

/** Writes what was seen as a line of {@code advise} input; what was not read is left out. */
public final class ObservationLine {
  private ObservationLine() {}

  /** One line, without its line feed. */
  public static String of(Observation seen) {
    ObjectNode line = Json.MAPPER.createObjectNode();
    line.put("at", seen.at().toString());
    put(line, "air_c", seen.airC());
    put(line, "rh_pct", seen.rhPct());
    put(line, "root_c", seen.rootC());
    put(line, "outdoor_c", seen.outdoorC());
    put(line, "light", seen.lightUmolPerM2S());
    put(line, "mass_g", seen.massG());
    put(line, "theta", seen.theta());
    put(line, "tank_ml", seen.tankMl());
    if (seen.leak()) {
      line.put("leak", true);
    }
    if (seen.leakUnread()) {
      line.put("leak_unread", true);
    }
    if (seen.clockInDoubt()) {
      line.put("clock_in_doubt", true);
    }
    if (seen.hoseInDoubt()) {
      line.put("hose_in_doubt", true);
    }
    if (seen.boardFault()) {
      line.put("board_fault", true);
    }
    if (seen.watchOnly()) {
      line.put("watch_only", true);
    }
    if (!seen.orders().isEmpty()) {
      line.putArray("orders").addAll(seen.orders());
    }
    return line.toString();
  }

  private static void put(ObjectNode line, String key, OptionalDouble value) {
    value.ifPresent(v -> line.put(key, v));
  }

  private static void put(ObjectNode line, String key, Map<String, Double> values) {
    if (!values.isEmpty()) {
      ObjectNode inner = line.putObject(key);
      values.forEach(inner::put);
    }
  }
}
