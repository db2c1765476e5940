package dev.cupwarden.host;

import dev.cupwarden.host.broker.MqttLink;
import dev.cupwarden.host.ingest.AlertListener;
import dev.cupwarden.host.ingest.Ingest;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.notify.NoticeDesk;
import dev.cupwarden.host.notify.NoticeSettings;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.watch.Beats;
import dev.cupwarden.host.watch.Disk;
import dev.cupwarden.host.watch.Ear;
import dev.cupwarden.host.watch.HostAlerts;
import dev.cupwarden.host.watch.SilenceWatch;
import dev.cupwarden.host.watch.StoreWatch;
import dev.cupwarden.host.watch.TwinWatch;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.Supplier;

/**
 * What a host looks after by itself. Marks, looks and notices each have a thread of their own: a
 * database or a mail server that does not answer must not hold up the others.
 */
final class Watches implements AutoCloseable {
  private static final Duration MARK = Duration.ofSeconds(20);
  private static final Duration LOOK = Duration.ofSeconds(10);
  private static final Duration NOTICES = Duration.ofSeconds(5);
  private static final InstantSource CLOCK = InstantSource.system();

  private final Store store;
  private final Beats beats = new Beats();
  private final StoreWatch storeWatch;
  private final AlertListener alertListener;
  private final HostAlerts alerts;
  private final Chores marks = new Chores("marks");
  private final Chores looks = new Chores("looks");
  private final Chores notices = new Chores("notices");
  private Ear ear;

  /** Where the page hears of alerts; nowhere before it is open. */
  private volatile Consumer<LiveEvent> live = event -> {};

  /**
   * @param host this host's own name
   * @param waitingSince since when what benches said could not be stored
   * @param changed hears of each new state of the store
   */
  Watches(
      HostSettings settings,
      Store store,
      String host,
      Supplier<Optional<Instant>> waitingSince,
      Consumer<StoreWatch.State> changed) {
    this.store = store;
    Disk disk = Disk.of(settings.keeping().database());
    storeWatch = new StoreWatch(store, host, CLOCK, disk, waitingSince, changed);
    storeWatch.start();
    marks.every(MARK, storeWatch::mark);
    if (settings.notices().isEmpty()) {
      alertListener = (handle, bench, before, notice) -> {};
      alerts =
          new HostAlerts(
              store,
              CLOCK,
              settings.benchClock(),
              alertListener,
              event -> live.accept(event),
              storeWatch::takes);
    } else {
      NoticeDesk desk =
          new NoticeDesk(
              store,
              CLOCK,
              settings.benchClock(),
              NoticeSettings.read(settings.notices().get()),
              event -> live.accept(event),
              storeWatch::takes);
      notices.every(NOTICES, desk::run);
      alertListener = desk;
      alerts = desk.alerts();
    }
  }

  /**
   * Begins to look at benches.
   *
   * @param connected whether the host is connected to the broker
   * @param second makes a second connection to it, for what is only listened to
   */
  void begin(
      Consumer<LiveEvent> page,
      BooleanSupplier connected,
      Ingest ingest,
      Supplier<MqttLink> second) {
    live = page;
    ear = new Ear(second, ingest::overhearWaiting);
    SilenceWatch silence =
        new SilenceWatch(store, CLOCK, beats, alerts, connected, storeWatch::takes);
    looks.every(LOOK, () -> ear.listen(!storeWatch.takes()));
    looks.every(LOOK, () -> storeWatch.tell(alerts));
    looks.every(LOOK, silence::run);
    looks.every(LOOK, new TwinWatch(CLOCK, beats, alerts)::run);
    looks.every(LOOK, alerts::catchUp);
  }

  AlertListener people() {
    return alertListener;
  }

  Beats beats() {
    return beats;
  }

  StoreWatch store() {
    return storeWatch;
  }

  @Override
  public void close() throws InterruptedException {
    looks.close();
    notices.close();
    marks.close();
    if (ear != null) {
      ear.close();
    }
  }
}
