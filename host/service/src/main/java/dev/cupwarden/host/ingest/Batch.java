package dev.cupwarden.host.ingest;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Events.Gap;
import dev.cupwarden.host.store.Orders.ReceiptRow;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.RejectedMessages.RejectedRow;
import dev.cupwarden.host.store.Setups.CupRow;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Messages that are stored together in one transaction. Made anew for each attempt, so that a
 * transaction that was rolled back leaves nothing behind.
 */
final class Batch {
  private static final Logger LOG = LoggerFactory.getLogger(Batch.class);
  private final Store store;
  private final Handle handle;
  private final Instant now;
  private final List<Reading> readings = new ArrayList<>();
  private final List<LiveEvent> live = new ArrayList<>();
  private final Set<Journal> touched = new LinkedHashSet<>();
  private final Map<Journal, Long> kept = new LinkedHashMap<>();
  private final Map<Journal, Long> toldAgain = new LinkedHashMap<>();
  private final Set<String> heard = new LinkedHashSet<>();
  private final Gaps gaps;
  private final Ticks ticks;
  private final AlertListener alertListener;
  private int doubles;
  private long passedOver;

  /** A journal of a bench, in which events are numbered. */
  record Journal(String bench, String epoch) {}

  /**
   * @param now when the host does this; not the bench's time
   */
  Batch(
      Store store,
      Handle handle,
      Gaps gaps,
      Ticks ticks,
      AlertListener alertListener,
      Instant now) {
    this.ticks = ticks;
    this.store = store;
    this.handle = handle;
    this.gaps = gaps;
    this.alertListener = alertListener;
    this.now = now;
  }

  /**
   * @param retained said earlier, and kept by the broker
   */
  void add(BenchMessage said, boolean retained) {
    if (!retained && isLifeSign(said)) {
      heard.add(said.bench());
    }
    add(said);
  }

  /** Whether the bench has finished another tick: its status is of another time than before. */
  private boolean isLifeSign(BenchMessage said) {
    return said instanceof BenchMessage.Bench bench
        && ticks.isAnother(bench.bench(), bench.status().at());
  }

  private void add(BenchMessage said) {
    said.to(new Rows());
  }

  /** Where each kind of message goes. */
  private final class Rows implements BenchMessage.Taker {
    @Override
    public void measured(BenchMessage.Measured said) {
      store.benches().touch(handle, said.bench());
      readings.addAll(said.readings());
    }

    @Override
    public void cup(BenchMessage.Cup said) {
      store.benches().touch(handle, said.bench());
      CupStatus status = said.status();
      store.benches().cup(handle, said.bench(), status.cup(), status.at(), Json.written(status));
      live.add(LiveEvent.of(said));
    }

    @Override
    public void cupGone(BenchMessage.CupGone said) {
      store.benches().removeCup(handle, said.bench(), said.cup());
      live.add(LiveEvent.of(said));
    }

    @Override
    public void bench(BenchMessage.Bench said) {
      store.benches().status(handle, said.bench(), said.status().at(), Json.written(said.status()));
      live.add(LiveEvent.of(said));
    }

    @Override
    public void setUp(BenchMessage.SetUp said) {
      add(said);
    }

    @Override
    public void here(BenchMessage.Here said) {
      store
          .benches()
          .presence(handle, said.bench(), said.presence().state(), said.presence().since(), now);
      live.add(LiveEvent.of(said));
    }

    @Override
    public void happened(BenchMessage.Happened said) {
      add(said);
    }

    @Override
    public void answered(BenchMessage.Answered said) {
      add(said, now);
    }

    @Override
    public void beating(BenchMessage.Beating said) {
      // Heard as it comes, and lives in memory.
    }

    @Override
    public void byAHost(BenchMessage.ByAHost said) {
      // Nothing of a bench.
    }
  }

  private void add(BenchMessage.SetUp said) {
    store.benches().touch(handle, said.bench());
    Map<String, CupRow> cups = new TreeMap<>();
    said.setup()
        .cups()
        .forEach(
            (name, cup) ->
                cups.put(
                    name,
                    new CupRow(
                        cup.plant(),
                        cup.struck().map(LocalDate::toString).orElse(""),
                        Json.written(cup))));
    live.add(LiveEvent.of(said));
    store
        .setups()
        .put(handle, said.bench(), said.setup().at(), Json.written(said.setup()), cups)
        .forEach(cup -> add(new BenchMessage.CupGone(said.bench(), cup)));
  }

  private void add(BenchMessage.Happened happened) {
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
            Json.written(event.data()));
    if (!store.events().insert(handle, row)) {
      doubles++;
      toldAgain.merge(new Journal(bench, event.epoch()), event.seq(), Math::max);
      return;
    }
    happened.alert().ifPresent(notice -> add(bench, notice, event.at()));
    happened
        .receipt()
        .ifPresent(receipt -> add(new BenchMessage.Answered(bench, receipt), event.at()));
    live.add(LiveEvent.of(happened));
  }

  private void add(String bench, AlertNotice notice, Instant at) {
    if (notice.code().equals(AlertCode.TWO_CONTROLLERS.word())
        && notice.state().equals("cleared")) {
      return; // Each of the two would end what the other raises; the host hears both, and ends it.
    }
    Alerts.Key key = Alerts.Key.of(bench, notice);
    store
        .alerts()
        .put(handle, key, notice.state(), at, Json.written(notice))
        .filter(before -> notice.again() || !before.equals(notice.state()))
        .ifPresent(before -> alertListener.alert(handle, bench, before, notice));
  }

  private void add(BenchMessage.Answered answered, Instant at) {
    Receipt receipt = answered.receipt();
    if (receipt.id() == null) {
      return; // Of an order that had no id: there is nothing it could be the answer to.
    }
    ReceiptRow row =
        new ReceiptRow(
            answered.bench(), receipt.id(), receipt.outcome(), at, Json.written(receipt));
    if (store.orders().insert(handle, row)) {
      live.add(LiveEvent.of(answered));
    }
  }

  void setAside(RejectedRow row) {
    store.rejectedMessages().insert(handle, row);
  }

  /**
   * An event that cannot be kept as it is: its number is taken, and what stands there says why, so
   * that the mark goes on. Told again it could not be read either.
   */
  void setAside(RejectedRow row, MessageReader.Numbered number) {
    setAside(row);
    store.benches().touch(handle, number.bench());
    touched.add(new Journal(number.bench(), number.epoch()));
    String detail = "Event " + number.seq() + " could not be read: " + row.reason() + ".";
    EventRow standIn =
        new EventRow(
            number.bench(),
            number.epoch(),
            number.seq(),
            now,
            "change",
            null,
            Json.written(Map.of("change", "event-set-aside", "detail", detail)));
    if (!store.events().insert(handle, standIn)) {
      doubles++;
    }
  }

  /** The last writes of the transaction: what is cheaper done once for all. */
  void finish() {
    store.readings().insert(handle, readings);
    for (Journal journal : touched) {
      kept.put(journal, advance(journal));
    }
    heard.forEach(bench -> store.benches().heard(handle, bench, now));
  }

  private long advance(Journal journal) {
    long mark = store.events().advanceKept(handle, journal.bench(), journal.epoch());
    Optional<Long> next = store.events().nextAfter(handle, journal.bench(), journal.epoch(), mark);
    long highest = store.events().highest(handle, journal.bench(), journal.epoch());
    long again = toldAgain.getOrDefault(journal, 0L);
    long hopelessBelow = gaps.hopelessBelow(journal, next.isPresent(), highest, again, now);
    while (next.isPresent() && next.get() <= hopelessBelow) {
      passOver(new Gap(journal.bench(), journal.epoch(), mark + 1, next.get() - 1));
      mark = store.events().advanceKept(handle, journal.bench(), journal.epoch());
      next = store.events().nextAfter(handle, journal.bench(), journal.epoch(), mark);
    }
    return mark;
  }

  private void passOver(Gap gap) {
    store.events().passOver(handle, gap, now);
    store
        .events()
        .insertOwn(
            handle,
            gap.bench(),
            now,
            "change",
            null,
            Json.written(
                Map.of(
                    "change",
                    "events-passed-over",
                    "detail",
                    "Events " + gap.first() + " to " + gap.last() + " never came.")));
    passedOver += gap.events();
    LOG.atWarn()
        .addKeyValue("bench", gap.bench())
        .addKeyValue("epoch", gap.epoch())
        .addKeyValue("first_seq", gap.first())
        .addKeyValue("last_seq", gap.last())
        .log(
            "Bench {}: events {} to {} of journal {} never came, though the bench told again what"
                + " lies beyond them; they are passed over",
            gap.bench(),
            gap.first(),
            gap.last(),
            gap.epoch());
  }

  List<Reading> readings() {
    return readings;
  }

  /** Tells what to show to whoever is looking, once it is committed. */
  void tellLive(Consumer<LiveEvent> told) {
    live.forEach(told);
    readings.forEach(reading -> LiveEvent.of(reading).ifPresent(told));
  }

  /** How far each journal that was touched is kept now, also where that has not moved. */
  Map<Journal, Long> kept() {
    return kept;
  }

  /** Events that were given up. */
  long passedOver() {
    return passedOver;
  }

  /** Events that were there already. */
  int doubles() {
    return doubles;
  }
}
