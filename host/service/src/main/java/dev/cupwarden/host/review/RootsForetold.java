package dev.cupwarden.host.review;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Setups.CuttingRow;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** On which days roots were foretold of a cutting, beside those on which a person saw them. */
public final class RootsForetold {
  private static final Instant FOR_EVER = Instant.ofEpochMilli(Long.MAX_VALUE);
  private static final List<String> BAND = List.of("from", "likely", "to");

  /** Changes of one cup that are looked through. */
  private static final int MOST_CHANGES = 2_000;

  private RootsForetold() {}

  /**
   * One entry for white and one for toughened roots, as far as they were foretold and seen: {@code
   * roots}, {@code day}, {@code from}, {@code likely}, {@code to}. What a person took back is not
   * among them.
   *
   * @param stage the cutting's root stage, as the bench tells it
   */
  public static ArrayNode of(Store store, String bench, CuttingRow cutting, String stage) {
    Map<RootStage, ObjectNode> seen = new EnumMap<>(RootStage.class);
    Optional<RootStage> now = RootStage.of(stage);
    Instant until = cutting.gone() == null ? FOR_EVER : cutting.gone().plusMillis(1);
    for (JsonNode change : changes(store, bench, cutting, until)) {
      Optional<RootStage> said = RootStage.of(change.path("stage").asText());
      boolean stands = said.isPresent() && now.isPresent() && said.get().compareTo(now.get()) <= 0;
      if (stands) {
        RootStage of = said.get().takesFeed() ? RootStage.TOUGHENED : said.get();
        // Newest first: a slip that was taken back lies behind what was seen after it.
        seen.putIfAbsent(of, entry(of, change));
      }
    }
    ArrayNode entries = Json.MAPPER.createArrayNode();
    seen.values().forEach(entries::add);
    return entries;
  }

  /** Only those that tell a whole band: they come from outside. */
  private static List<JsonNode> changes(
      Store store, String bench, CuttingRow cutting, Instant until) {
    Search search =
        new Search(bench, cutting.cup(), "change", cutting.since(), until, MOST_CHANGES);
    return store.events().find(search).stream()
        .map(EventTables::data)
        .filter(change -> change.path("change").asText().equals("roots-seen"))
        .filter(change -> isDay(change.path("day")))
        .filter(change -> BAND.stream().allMatch(day -> isDay(change.path("foretold").path(day))))
        .toList();
  }

  private static boolean isDay(JsonNode told) {
    try {
      return LocalDate.parse(told.asText()) != null;
    } catch (DateTimeParseException none) {
      return false;
    }
  }

  private static ObjectNode entry(RootStage of, JsonNode change) {
    ObjectNode entry = Json.MAPPER.createObjectNode().put("roots", of.word());
    entry.put("day", change.path("day").asText());
    BAND.forEach(day -> entry.put(day, change.path("foretold").path(day).asText()));
    return entry;
  }
}
