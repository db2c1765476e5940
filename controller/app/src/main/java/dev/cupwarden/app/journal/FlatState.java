package dev.cupwarden.app.journal;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;

/**
 * A state as journals up to schema 3 hold it, in which all facts of the bench, and all of a cup,
 * lie side by side. Each is moved as it stands into the room that it belongs to now; nothing else
 * is changed.
 */
final class FlatState {
  private static final Map<String, List<String>> OF_A_CUP =
      Map.of(
          "presence",
          List.of("away_since", "away", "back_at"),
          "plant",
          List.of("stage_since", "use", "roots"),
          "weight",
          List.of(
              "estimate", "last_read_g", "distrusted_since", "weighing", "reckoning", "misplaced"),
          "watering",
          List.of("refill", "dried_from", "half_given", "wet", "dry_clock"),
          "doses",
          List.of("given", "last_pass_at", "unlooked_ml", "habit", "salts"),
          "witness",
          List.of("learned", "soaking", "on_trial", "rising", "short_run", "steps"));

  private static final Map<String, List<String>> OF_A_BENCH =
      Map.of(
          "pump",
          List.of(
              "latch",
              "short_cups",
              "leak",
              "watch",
              "last_passes_ml",
              "last_passes_at",
              "tray_ml"),
          "compared",
          List.of("roots_at", "steps"),
          "orders",
          List.of("hold", "ids", "done"));

  private FlatState() {}

  /** Moves the facts of a bench and of the cups in it, where they are not in rooms already. */
  static void benchIntoRooms(JsonNode written) {
    if (written instanceof ObjectNode bench && !bench.has("pump")) {
      rename(bench, "pump_latch", "latch");
      rename(bench, "order_ids", "ids");
      move(bench, OF_A_BENCH);
    }
    written.path("cups").forEach(FlatState::cupIntoRooms);
  }

  /** Moves the facts of one cup, where they are not in rooms already. */
  static void cupIntoRooms(JsonNode written) {
    if (written instanceof ObjectNode cup && !cup.has("weight")) {
      // How many passes came short stands in the short run itself.
      cup.remove("short_passes");
      // No rule asks any more what the leaves drew.
      cup.remove("draw");
      move(cup, OF_A_CUP);
    }
  }

  private static void rename(ObjectNode record, String was, String is) {
    if (record.has(was)) {
      record.set(is, record.remove(was));
    }
  }

  private static void move(ObjectNode record, Map<String, List<String>> rooms) {
    rooms.forEach(
        (room, names) -> {
          ObjectNode facts = record.objectNode();
          for (String name : names) {
            JsonNode fact = record.remove(name);
            if (fact != null) {
              facts.set(name, fact);
            }
          }
          record.set(room, facts);
        });
  }
}
