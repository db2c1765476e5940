package dev.cupwarden.host.app;

import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.loop.RunMode;
import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.app.page.Browser;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.chips.ChipFault;
import java.net.URI;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.util.TreeMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;

/**
 * A winter of the demo's bench, host and all, as fast as it goes. Whatever happens to the world
 * happens between two ticks, on the loop's thread; the loop never runs far ahead of the host.
 */
final class Winter implements AutoCloseable {
  static final Instant C2_DARK = Instant.parse("2026-12-01T03:00:00Z");
  static final Instant C2_MENDED = Instant.parse("2026-12-12T11:00:00Z");
  static final Instant B1_DARK = Instant.parse("2026-12-29T15:00:00Z");
  static final LocalDate LAST_MIXED = LocalDate.of(2027, 1, 23);
  static final LocalDate GONE_FROM = LocalDate.of(2027, 1, 30);
  static final LocalDate BACK = LocalDate.of(2027, 2, 20);
  static final LocalDate SWITCH = LocalDate.of(2027, 3, 15);
  static final LocalDate MIXED = LocalDate.of(2027, 3, 20);

  private static final Duration FAR_AHEAD = Duration.ofHours(1);
  static final Duration VISIT = Duration.ofHours(10);

  /** Lasts some weeks, above the 2 L at which the tank's float falls. */
  private static final double LITTLE_PLAIN_ML = 3_800;

  private static final long SEED = 1;

  final WinterDiary diary = new WinterDiary();
  private final TreeMap<Instant, Runnable> script = new TreeMap<>();
  private final AtomicReference<SimulatedBench> made = new AtomicReference<>();
  private final AtomicReference<Throwable> failed = new AtomicReference<>();
  private final CountDownLatch over = new CountDownLatch(1);

  /** Whoever waits for this waits until the loop is stopped, which interrupts. */
  private final CountDownLatch never = new CountDownLatch(1);

  private final CountDownLatch ready = new CountDownLatch(1);
  private final Duration length;
  private final Host host;
  private final DemoBench demo;
  private final GrowersPage page;
  private Instant begins;
  private Instant now;
  private WinterTruth truth;
  private WinterGrower grower;
  private Bench bench;

  Winter(Path folder, Duration length) throws InterruptedException {
    this.length = length;
    AtomicReference<InstantSource> clock = new AtomicReference<>(InstantSource.system());
    HostSettings settings =
        HostSettings.local(
                folder,
                LoopbackPort.anyFree("the page", "--port"),
                LoopbackPort.anyFree("the broker", "--broker-port"))
            .inTime(() -> clock.get().instant(), Duration.ofHours(24));
    host = Host.start(settings);
    page = new GrowersPage(host.address(), "back-room");
    demo =
        DemoBench.start(
            new DemoBench.Plan(
                URI.create(host.brokerUri()),
                folder.resolve("bench"),
                SEED,
                AcceleratedTime.UNBOUNDED,
                RunMode.AS_LEFT),
            this::world,
            this::ticked);
    clock.set(demo::now);
    ready.countDown();
  }

  private SimulatedBench world(Bench of, Instant at) {
    bench = of;
    made.set(SimulatedBench.of(of, SEED, at, WinterRoom::at));
    return made.get();
  }

  private void ticked(TickReport report) {
    try {
      ready.await();
      now = report.at();
      if (truth == null) {
        begin();
      }
      truth.see(report);
      if (Duration.between(begins, now).toMinutes() % FAR_AHEAD.toMinutes() < 5) {
        page.heardOf(now.minus(FAR_AHEAD));
      }
      while (!script.isEmpty() && !script.firstKey().isAfter(now)) {
        page.heardOf(now);
        script.pollFirstEntry().getValue().run();
      }
      grower.read(now);
      if (!now.isBefore(begins.plus(length))) {
        page.heardOf(now);
        standStill();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (Throwable e) {
      failed.set(e);
      standStill();
    }
  }

  /** The world has come to its end; nothing moves any more until all is closed. */
  private void standStill() {
    over.countDown();
    try {
      never.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void begin() {
    begins = now;
    truth = new WinterTruth(bench, made.get());
    grower = new WinterGrower(made.get(), page, diary);
    plan();
  }

  /** With {@code -Dwinter.pictures=true} what the page shows then: {@code target/screenshots}. */
  private void picture(Instant at, String name, String... views) {
    if (Boolean.getBoolean("winter.pictures")) {
      script.put(at, () -> photograph(name, views));
    }
  }

  private void photograph(String name, String... views) {
    try (Browser browser = new Browser()) {
      browser.size(Browser.WIDE).scheme("light");
      for (String view : views) {
        browser.open(host.address() + "#/back-room/" + view);
        browser.await(
            "a heading", () -> browser.textsOf("h1").stream().anyMatch(t -> t.length() > 1));
        GrowersPage.until(Duration.ofSeconds(3), () -> false);
        browser.screenshot("winter-" + name + "-" + view.replace('/', '-'));
      }
    }
  }

  private void pictures() {
    picture(Instant.parse("2026-12-03T12:30:00Z"), "lost-scale", "", "cup/C2", "alerts");
    picture(Instant.parse("2027-01-15T08:30:00Z"), "frost", "", "alerts");
    picture(Instant.parse("2027-02-17T12:30:00Z"), "empty-tank", "", "tanks", "alerts");
    picture(Instant.parse("2027-03-16T12:30:00Z"), "switch", "tanks", "alerts");
  }

  private void plan() {
    pictures();
    SimulatedBench world = made.get();
    script.put(
        begins,
        () -> {
          diary.happened(now, "the bench begins");
          grower.fill(now, "plain", LITTLE_PLAIN_ML);
          grower.fill(now, "feed", 4_000);
        });
    at(C2_DARK, "the scale of C2 falls silent", () -> lose("C2", "s10"));
    at(
        C2_MENDED,
        "C2 gets another converter",
        () -> {
          world.faults().breakChip("s10", ChipFault.NONE);
          grower.mind("C2", false);
        });
    at(B1_DARK, "the scale of B1 falls silent, for good", () -> lose("B1", "s5"));
    at(WinterRoom.COLD_FROM, "the heating fails", () -> {});
    at(WinterRoom.FROST_FROM, "a night of frost comes", () -> {});
    at(WinterRoom.FROST_TO, "the frost is over", () -> {});
    at(WinterRoom.COLD_TO, "the heating goes again", () -> {});
    at(day(GONE_FROM), "the grower is away from here on", () -> {});
    at(day(SWITCH), "from today the plan wants balanced", () -> grower.takeUp("balanced"));
    Duration week = Duration.ofDays(7);
    ZonedDateTime day = WinterDiary.clock(begins).toLocalDate().atStartOfDay(WinterDiary.ZONE);
    for (int i = 1; i <= length.toDays(); i++) {
      LocalDate date = day.toLocalDate().plusDays(i);
      boolean here = date.isBefore(GONE_FROM) || !date.isBefore(BACK);
      if (here && date.getDayOfWeek() == DayOfWeek.SATURDAY) {
        boolean feed = !date.isAfter(LAST_MIXED) || !date.isBefore(BACK);
        Instant next = (date.equals(LAST_MIXED) ? day(BACK) : day(date).plus(week)).plus(VISIT);
        script.put(day(date).plus(VISIT), () -> grower.visit(now, feed, next));
      }
    }
  }

  /** When that day begins there. */
  static Instant day(LocalDate date) {
    return date.atStartOfDay(WinterDiary.ZONE).toInstant();
  }

  private void at(Instant at, String what, Runnable act) {
    if (script.containsKey(at)) {
      throw new IllegalStateException("two things at once, " + what);
    }
    script.put(
        at,
        () -> {
          diary.happened(now, what);
          act.run();
        });
  }

  private void lose(String cup, String scale) {
    made.get().faults().breakChip(scale, ChipFault.SILENT);
    grower.mind(cup, true);
  }

  /** Waits for its end. */
  void await(Duration limit) throws InterruptedException {
    if (!over.await(limit.toSeconds(), TimeUnit.SECONDS)) {
      throw new AssertionError("the winter is not over after " + limit + " but at " + now);
    }
    if (failed.get() != null) {
      throw new AssertionError("on " + now, failed.get());
    }
  }

  GrowersPage page() {
    return page;
  }

  WinterTruth truth() {
    return truth;
  }

  WinterGrower grower() {
    return grower;
  }

  Host host() {
    return host;
  }

  Bench bench() {
    return bench;
  }

  Instant begins() {
    return begins;
  }

  Instant ended() {
    return now;
  }

  @Override
  public void close() {
    demo.close();
    host.close();
  }
}
