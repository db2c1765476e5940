package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.host.store.Aside.AsideRow;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Orders.ReceiptRow;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.Setups.CupRow;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jdbi.v3.core.Handle;

/**
 * Messages that are stored together in one transaction. Made anew for each attempt, so that a
 * transaction that was rolled back leaves nothing behind.
 */
final class Batch {
  private final Store store;
  private final Handle handle;
  private final Instant now;
  private final List<Reading> readings = new ArrayList<>();
  private final List<LiveEvent> live = new ArrayList<>();
  private final Set<Journal> touched = new LinkedHashSet<>();
  private final Map<Journal, Long> kept = new LinkedHashMap<>();
  private int doubles;

  /** A journal of a bench, in which events are numbered. */
  record Journal(String bench, String epoch) {}

  /**
   * @param now when the host does this; not the bench's time
   */
  Batch(Store store, Handle handle, Instant now) {
    this.store = store;
    this.handle = handle;
    this.now = now;
  }

  void add(Said said) {
    if (said instanceof Said.Measured measured) {
      store.benches().touch(handle, said.bench());
      readings.addAll(measured.readings());
    } else if (said instanceof Said.Cup cup) {
      store.benches().touch(handle, said.bench());
      String name = cup.status().cup();
      store.benches().cup(handle, said.bench(), name, cup.status().at(), json(cup.status()));
      live.add(LiveEvent.of(cup));
    } else if (said instanceof Said.CupGone gone) {
      store.benches().removeCup(handle, said.bench(), gone.cup());
      live.add(LiveEvent.of(gone));
    } else if (said instanceof Said.Bench bench) {
      store.benches().status(handle, said.bench(), bench.status().at(), json(bench.status()));
      live.add(LiveEvent.of(bench));
    } else if (said instanceof Said.SetUp setUp) {
      add(setUp);
    } else if (said instanceof Said.Here here) {
      store
          .benches()
          .presence(handle, said.bench(), here.presence().state(), here.presence().since());
      live.add(LiveEvent.of(here));
    } else if (said instanceof Said.Happened happened) {
      add(happened);
    } else if (said instanceof Said.Answered answered) {
      add(answered, now);
    }
  }

  private void add(Said.SetUp said) {
    store.benches().touch(handle, said.bench());
    Map<String, CupRow> cups = new TreeMap<>();
    said.setup()
        .cups()
        .forEach(
            (name, cup) ->
                cups.put(
                    name,
                    new CupRow(
                        cup.plant(), cup.struck().map(LocalDate::toString).orElse(""), json(cup))));
    live.add(LiveEvent.of(said));
    store
        .setups()
        .put(handle, said.bench(), said.setup().at(), json(said.setup()), cups)
        .forEach(cup -> add(new Said.CupGone(said.bench(), cup)));
  }

  private void add(Said.Happened happened) {
    Event event = happened.event();
    String bench = happened.bench();
    store.benches().touch(handle, bench);
    touched.add(new Journal(bench, event.epoch()));
    EventRow row =
        new EventRow(
            bench,
            event.epoch(),
            event.seq(),
            event.at(),
            event.kind(),
            event.cup(),
            json(event.data()));
    if (!store.events().insert(handle, row)) {
      doubles++;
      return;
    }
    happened
        .alert()
        .ifPresent(
            notice ->
                store
                    .events()
                    .alert(
                        handle,
                        bench,
                        notice.code(),
                        notice.cup(),
                        notice.state(),
                        event.at(),
                        json(notice)));
    happened.receipt().ifPresent(receipt -> add(new Said.Answered(bench, receipt), event.at()));
    live.add(LiveEvent.of(happened));
  }

  private void add(Said.Answered answered, Instant at) {
    Receipt receipt = answered.receipt();
    if (receipt.id() == null) {
      return; // Of an order that had no id: there is nothing it could be the answer to.
    }
    ReceiptRow row =
        new ReceiptRow(answered.bench(), receipt.id(), receipt.outcome(), at, json(receipt));
    if (store.orders().insert(handle, row)) {
      live.add(LiveEvent.of(answered));
    }
  }

  void setAside(AsideRow row) {
    store.aside().insert(handle, row);
  }

  /** The last writes of the transaction: what is cheaper done once for all. */
  void finish() {
    store.readings().insert(handle, readings);
    for (Journal journal : touched) {
      kept.put(journal, store.events().advanceKept(handle, journal.bench(), journal.epoch()));
    }
  }

  private static String json(Object message) {
    try {
      return Json.MAPPER.writeValueAsString(message);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("what was read cannot be written", impossible);
    }
  }

  List<Reading> readings() {
    return readings;
  }

  /** What to show to whoever is looking, once it is committed. */
  List<LiveEvent> live() {
    List<LiveEvent> all = new ArrayList<>(live);
    readings.forEach(reading -> LiveEvent.of(reading).ifPresent(all::add));
    return all;
  }

  /** How far each journal that was touched is kept now, also where that has not moved. */
  Map<Journal, Long> kept() {
    return kept;
  }

  /** Events that were there already. */
  int doubles() {
    return doubles;
  }
}
