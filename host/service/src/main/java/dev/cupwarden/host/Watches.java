package dev.cupwarden.host;

import dev.cupwarden.host.broker.HostMqttLink;
import dev.cupwarden.host.ingest.AlertListener;
import dev.cupwarden.host.ingest.Ingest;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.notify.NoticeService;
import dev.cupwarden.host.notify.NoticeSettings;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.watch.Disk;
import dev.cupwarden.host.watch.DuplicateNameWatch;
import dev.cupwarden.host.watch.Heartbeats;
import dev.cupwarden.host.watch.HostAlerts;
import dev.cupwarden.host.watch.SilenceWatch;
import dev.cupwarden.host.watch.StandbyMqttLink;
import dev.cupwarden.host.watch.StoreWatch;
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
  private final Heartbeats beats = new Heartbeats();
  private final StoreWatch storeWatch;
  private final AlertListener alertListener;
  private final HostAlerts alerts;
  private final PeriodicTasks marks = new PeriodicTasks("marks");
  private final PeriodicTasks looks = new PeriodicTasks("looks");
  private final PeriodicTasks notices = new PeriodicTasks("notices");
  private StandbyMqttLink standby;

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
      NoticeService noticeService =
          new NoticeService(
              store,
              CLOCK,
              settings.benchClock(),
              NoticeSettings.read(settings.notices().get()),
              event -> live.accept(event),
              storeWatch::takes);
      notices.every(NOTICES, noticeService::run);
      alertListener = noticeService;
      alerts = noticeService.alerts();
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
      Supplier<HostMqttLink> second) {
    live = page;
    standby = new StandbyMqttLink(second, ingest::overhearWaiting);
    SilenceWatch silence =
        new SilenceWatch(store, CLOCK, beats, alerts, connected, storeWatch::takes);
    looks.every(LOOK, () -> standby.listen(!storeWatch.takes()));
    looks.every(LOOK, () -> storeWatch.tell(alerts));
    looks.every(LOOK, silence::run);
    looks.every(LOOK, new DuplicateNameWatch(CLOCK, beats, alerts)::run);
    looks.every(LOOK, alerts::catchUp);
  }

  AlertListener people() {
    return alertListener;
  }

  Heartbeats beats() {
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
    if (standby != null) {
      standby.close();
    }
  }
}
