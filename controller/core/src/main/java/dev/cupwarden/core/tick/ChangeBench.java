package dev.cupwarden.core.tick;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderReader;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.setup.BenchChange;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Orders that change the bench file, taken before all others of their line: what comes after is
 * decided for the bench as it is then. The file itself stays the grower's; what was changed stands
 * in the state.
 *
 * @param tick of the bench as it is now
 * @param receipts by the order's id; none of orders that were given before
 */
record ChangeBench(Tick tick, BenchState state, Map<String, Receipt> receipts) {
  /** More keys than a bench file of a grower has. */
  private static final int MOST_CHANGES = 500;

  static ChangeBench byOrders(Tick tick, BenchState state, Observation seen) {
    ChangeBench now = new ChangeBench(tick, state, Map.of());
    if (tick.text().isEmpty()) {
      return now;
    }
    for (JsonNode written : seen.orders()) {
      String id = OrderReader.idOf(written);
      if (id != null && written.path("kind").asText().equals("change") && now.isNew(id)) {
        now = now.with(id, written, seen);
      }
    }
    return now;
  }

  private boolean isNew(String id) {
    return !receipts.containsKey(id) && !state.orders().ids().contains(id);
  }

  private ChangeBench with(String id, JsonNode written, Observation seen) {
    Map<String, Receipt> more = new HashMap<>(receipts);
    try {
      Order order = OrderReader.read(written);
      TakeOrders.refuseStale(seen.at(), OrderReader.validity(written));
      BenchChange change = ((Order.Change) order).change();
      BenchText text = tick.text().orElseThrow().with(change);
      Tick next = tick.of(text);
      BenchState carried = carried(next, change);
      next.fit(carried);
      more.put(id, Receipt.done(id));
      return new ChangeBench(next, carried, more);
    } catch (OrderRefused | SetupException refused) {
      more.put(id, Receipt.refused(id, refused.getMessage()));
      return new ChangeBench(tick, state, more);
    }
  }

  private BenchState carried(Tick next, BenchChange change) throws SetupException {
    List<BenchChange> changes = new ArrayList<>(state.orders().changes());
    Optional<BenchChange> earlier =
        changes.stream().filter(each -> each.path().equals(change.path())).findFirst();
    earlier.ifPresent(changes::remove);
    (earlier.isPresent() ? change.after(earlier.get()) : Optional.of(change))
        .ifPresent(changes::add);
    if (changes.size() > MOST_CHANGES) {
      throw new SetupException(
          "there are %d changes of the bench file already: write them into it"
              .formatted(MOST_CHANGES));
    }
    SortedMap<String, CupState> cups = new TreeMap<>(state.cups());
    next.bench()
        .cups()
        .forEach(
            (name, cup) -> {
              Cup was = tick.bench().cups().get(name);
              if (!cup.equals(was)) {
                cups.computeIfPresent(
                    name, (same, kept) -> kept.under(cup.over(was, kept.setup())));
              }
            });
    return state
        .over(Collections.unmodifiableSortedMap(cups), state.air(), state.tanks())
        .with(state.orders().changes(changes));
  }
}
