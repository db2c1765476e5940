package dev.cupwarden.app.journal;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;

/**
 * A state as journals up to schema 3 hold it, in which all facts of a cup lie side by side. Each is
 * moved as it stands into the room that it belongs to now; nothing else is changed.
 */
final class FlatState {
  /** No flat cup has a field of that name, and no other is without it. */
  private static final String ROOM = "weight";

  private static final Map<String, List<String>> ROOMS =
      Map.of(
          "presence",
          List.of("away_since", "away", "back_at"),
          "plant",
          List.of("stage_since", "use", "roots", "draw"),
          ROOM,
          List.of(
              "estimate", "last_read_g", "distrusted_since", "weighing", "reckoning", "misplaced"),
          "watering",
          List.of("refill", "dried_from", "half_given", "wet", "dry_clock"),
          "doses",
          List.of("given", "last_pass_at", "unlooked_ml", "habit", "salts"),
          "witness",
          List.of("learned", "soaking", "on_trial", "rising", "short_run", "steps"));

  private FlatState() {}

  /** Moves the facts of one cup into their rooms, where they are not there already. */
  static void intoRooms(JsonNode written) {
    if (!(written instanceof ObjectNode cup) || cup.has(ROOM)) {
      return;
    }
    // How many passes came short stands in the short run itself.
    cup.remove("short_passes");
    ROOMS.forEach(
        (room, names) -> {
          ObjectNode facts = cup.objectNode();
          for (String name : names) {
            JsonNode fact = cup.remove(name);
            if (fact != null) {
              facts.set(name, fact);
            }
          }
          cup.set(room, facts);
        });
  }
}
