package dev.cupwarden.host.ingest;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Events.Gap;
import dev.cupwarden.host.store.Orders.ReceiptRow;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.RejectedMessages.RejectedRow;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Messages that are stored together in one transaction. Made anew for each attempt, so that a
 * transaction that was rolled back leaves nothing behind.
 *
 * <p>Messages are gathered first, and written by {@link #finish} kind by kind in the order of their
 * keys: hosts that share a store take the rows that both write in one order, and none waits for
 * another in a circle.
 */
final class Batch {
  private static final Logger LOG = LoggerFactory.getLogger(Batch.class);
  private final Store store;
  private final Handle handle;
  private final Instant now;
  private final List<Reading> readings = new ArrayList<>();
  private final List<LiveEvent> live = new ArrayList<>();
  private final LatestState state = new LatestState();
  private final List<Numbered> numbered = new ArrayList<>();
  private final SortedMap<Alerts.Key, List<TimedNotice>> notices = new TreeMap<>();
  private final List<TimedReceipt> receipts = new ArrayList<>();
  private final SortedSet<Journal> touched = new TreeSet<>();
  private final Map<Journal, Long> kept = new LinkedHashMap<>();
  private final Map<Journal, Long> toldAgain = new LinkedHashMap<>();
  private final SortedSet<String> heard = new TreeSet<>();
  private final Gaps gaps;
  private final Ticks ticks;
  private final AlertListener alertListener;
  private int doubles;
  private long passedOver;

  /** A journal of a bench, in which events are numbered. */
  record Journal(String bench, String epoch) implements Comparable<Journal> {
    private static final Comparator<Journal> ORDER =
        Comparator.comparing(Journal::bench).thenComparing(Journal::epoch);

    @Override
    public int compareTo(Journal other) {
      return ORDER.compare(this, other);
    }
  }

  /**
   * An event with its number.
   *
   * @param said none where it could not be read, and another stands in for it
   */
  private record Numbered(EventRow row, Optional<BenchMessage.Happened> said) {
    private static final Comparator<Numbered> ORDER =
        Comparator.comparing((Numbered each) -> each.row().bench())
            .thenComparing(each -> each.row().epoch())
            .thenComparing(each -> each.row().seq());
  }

  private record TimedNotice(AlertNotice notice, Instant at) {}

  private record TimedReceipt(BenchMessage.Answered answered, ReceiptRow row) {
    private static final Comparator<TimedReceipt> ORDER =
        Comparator.comparing((TimedReceipt each) -> each.row().bench())
            .thenComparing(each -> each.row().orderId())
            .thenComparing(each -> each.row().outcome());
  }

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
      state.touch(said.bench());
      readings.addAll(said.readings());
    }

    @Override
    public void cup(BenchMessage.Cup said) {
      state.cup(said);
      live.add(LiveEvent.of(said));
    }

    @Override
    public void cupGone(BenchMessage.CupGone said) {
      state.cupGone(said.bench(), said.cup());
      live.add(LiveEvent.of(said));
    }

    @Override
    public void bench(BenchMessage.Bench said) {
      state.bench(said);
      live.add(LiveEvent.of(said));
    }

    @Override
    public void setUp(BenchMessage.SetUp said) {
      state.setUp(said);
      live.add(LiveEvent.of(said));
    }

    @Override
    public void here(BenchMessage.Here said) {
      state.here(said);
      live.add(LiveEvent.of(said));
    }

    @Override
    public void happened(BenchMessage.Happened said) {
      Event event = said.event();
      add(
          new EventRow(
              said.bench(),
              event.epoch(),
              event.seq(),
              event.at(),
              event.kind(),
              event.cup(),
              Json.written(event.data())),
          Optional.of(said));
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

  private void add(EventRow row, Optional<BenchMessage.Happened> said) {
    state.touch(row.bench());
    touched.add(new Journal(row.bench(), row.epoch()));
    numbered.add(new Numbered(row, said));
  }

  private void add(BenchMessage.Answered answered, Instant at) {
    Receipt receipt = answered.receipt();
    if (receipt.id() == null) {
      return; // Of an order that had no id: there is nothing it could be the answer to.
    }
    receipts.add(
        new TimedReceipt(
            answered,
            new ReceiptRow(
                answered.bench(), receipt.id(), receipt.outcome(), at, Json.written(receipt))));
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
    add(standIn, Optional.empty());
  }

  /** The writes of the transaction; rows of state last, since hosts meet at them most. */
  void finish() {
    numbered.stream().sorted(Numbered.ORDER).forEach(this::storeEvent);
    notices.forEach((key, told) -> told.forEach(each -> storeNotice(key, each)));
    receipts.stream().sorted(TimedReceipt.ORDER).forEach(this::storeReceipt);
    store.readings().insert(handle, readings);
    state.write(store, handle, now).forEach(gone -> live.add(LiveEvent.of(gone)));
    for (Journal journal : touched) {
      kept.put(journal, advance(journal));
    }
    heard.forEach(bench -> store.benches().heard(handle, bench, now));
  }

  private void storeEvent(Numbered event) {
    EventRow row = event.row();
    if (!store.events().insert(handle, row)) {
      doubles++;
      event
          .said()
          .ifPresent(
              told -> toldAgain.merge(new Journal(row.bench(), row.epoch()), row.seq(), Math::max));
      return;
    }
    event.said().ifPresent(this::takeNew);
  }

  private void takeNew(BenchMessage.Happened happened) {
    String bench = happened.bench();
    Instant at = happened.event().at();
    happened
        .alert()
        .filter(notice -> !isOneSided(notice))
        .ifPresent(
            notice ->
                notices
                    .computeIfAbsent(Alerts.Key.of(bench, notice), key -> new ArrayList<>())
                    .add(new TimedNotice(notice, at)));
    happened.receipt().ifPresent(receipt -> add(new BenchMessage.Answered(bench, receipt), at));
    live.add(LiveEvent.of(happened));
  }

  /** Each of two controllers would end what the other raises; the host hears both, and ends it. */
  private static boolean isOneSided(AlertNotice notice) {
    return notice.code().equals(AlertCode.TWO_CONTROLLERS.word())
        && notice.state().equals("cleared");
  }

  private void storeNotice(Alerts.Key key, TimedNotice told) {
    AlertNotice notice = told.notice();
    store
        .alerts()
        .put(handle, key, notice.state(), told.at(), Json.written(notice))
        .filter(before -> notice.again() || !before.equals(notice.state()))
        .ifPresent(before -> alertListener.alert(handle, key.bench(), before, notice));
  }

  private void storeReceipt(TimedReceipt receipt) {
    if (store.orders().insert(handle, receipt.row())) {
      live.add(LiveEvent.of(receipt.answered()));
    }
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
