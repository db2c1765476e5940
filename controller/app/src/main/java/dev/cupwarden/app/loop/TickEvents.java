package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** The events of a tick, for the journal, and the status of the bench after it. */
final class TickEvents {
  private final String version;

  TickEvents(String version) {
    this.version = version;
  }

  /** Orders with who gave them, their receipts, alerts; doses are told when they are over. */
  List<JournalEvent> of(Instant at, List<JsonNode> orders, Advice advice) {
    List<JournalEvent> told = new ArrayList<>();
    for (JsonNode order : orders) {
      ObjectNode data = Json.MAPPER.createObjectNode().put("change", "order");
      data.set("order", order);
      String cup = order.path("cup").isTextual() ? order.get("cup").textValue() : null;
      told.add(new JournalEvent(at, "change", cup, data));
    }
    for (Receipt receipt : advice.receipts()) {
      if (!LostJournalHold.owns(receipt.id())) {
        told.add(JournalEvent.of(at, receipt));
      }
    }
    for (AlertNotice alert : advice.alerts()) {
      told.add(JournalEvent.of(at, alert));
    }
    return told;
  }

  /** The bench as a whole. */
  BenchStatus bench(Instant at, Observation seen, Bench bench, BenchState state) {
    SortedMap<String, Double> tankMl = new TreeMap<>();
    state
        .tanks()
        .forEach(
            (name, tank) -> {
              if (Double.isFinite(tank.leftMl())) {
                tankMl.put(name, tank.leftMl());
              }
            });
    List<String> holds = new ArrayList<>();
    if (state.orders().hold() != null && state.orders().hold().holdsAt(at)) {
      holds.add("*");
    }
    state
        .cups()
        .forEach(
            (name, cup) -> {
              if (cup.hold() != null && cup.hold().holdsAt(at)) {
                holds.add(name);
              }
            });
    return new BenchStatus(
        at,
        boxed(seen.airC()),
        boxed(seen.rhPct()),
        boxed(seen.rootC()),
        boxed(seen.outdoorC()),
        tankMl,
        holds,
        Elapsed.seconds(bench.tick()),
        version);
  }

  private static Double boxed(java.util.OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }
}
