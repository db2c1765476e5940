package dev.cupwarden.host.review;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Setups.CuttingRow;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.util.Optional;
import java.util.Set;

/** What became of a cutting. */
public final class Fate {
  private static final Set<String> WITH_TAN_ROOTS = Set.of("toughened", "circling");

  /** Orders of one cup that are looked through for the one that took it out. */
  private static final int MOST_CHANGES = 2_000;

  private Fate() {}

  /**
   * Why it was taken out ({@code rooted}, {@code rotted}, {@code dried}, {@code other}), or while
   * it stands on the bench what is seen of its roots: {@code growing} or {@code unknown}.
   *
   * @param stage its root stage, as the bench tells it
   */
  static String of(Store store, String bench, CuttingRow cutting, String stage) {
    return cutting.gone() == null
        ? standing(stage)
        : because(store, bench, cutting).orElse("other");
  }

  static String standing(String stage) {
    return WITH_TAN_ROOTS.contains(stage) ? "growing" : "unknown";
  }

  /** What was given as the reason by the order that took it out, if an order did. */
  public static Optional<String> because(Store store, String bench, CuttingRow cutting) {
    Instant until = cutting.gone().plusMillis(1);
    Search changes =
        new Search(bench, cutting.cup(), "change", cutting.since(), until, MOST_CHANGES);
    return store.events().find(changes).stream()
        .map(EventTables::data)
        .map(data -> data.path("order"))
        .filter(order -> order.path("kind").asText().equals("retire"))
        .map(order -> order.path("because"))
        .filter(JsonNode::isTextual)
        .map(JsonNode::textValue)
        .findFirst();
  }
}
