package dev.cupwarden.host.notify;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.ingest.AlertListener;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.store.Notices.NoticeRow;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.watch.HostAlerts;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Writes down what has to be told together with the alert itself, and sends it when its time has
 * come: after a short wait for more of the same bench, after the quiet hours unless it is urgent,
 * and again ever more rarely, then hourly, until it is taken. Of an alert that is told again only
 * the latest telling waits. What is not taken is an alert on the page; see {@link FailingNotices}.
 */
public final class NoticeService implements AlertListener {
  private static final Duration FIRST_AGAIN = Duration.ofMinutes(1);
  private static final Duration RAREST_AGAIN = Duration.ofHours(1);
  private static final Logger LOG = LoggerFactory.getLogger(NoticeService.class);

  private final Store store;
  private final InstantSource clock;
  private final NoticeSettings settings;
  private final List<NoticeChannel> ways;
  private final HostAlerts alerts;
  private final FailingNotices failing;
  private final BooleanSupplier takes;
  private final UnstoredNotices unstored = new UnstoredNotices();

  /**
   * @param clock this machine's time
   * @param benchClock the benches' time, in which alerts are written
   * @param live where the page hears of it
   */
  public NoticeService(
      Store store,
      InstantSource clock,
      InstantSource benchClock,
      NoticeSettings settings,
      Consumer<LiveEvent> live) {
    this(store, clock, benchClock, settings, live, () -> true);
  }

  /**
   * @param takes whether the store takes what it is given; while it does not, people are told from
   *     memory
   */
  public NoticeService(
      Store store,
      InstantSource clock,
      InstantSource benchClock,
      NoticeSettings settings,
      Consumer<LiveEvent> live,
      BooleanSupplier takes) {
    this.takes = takes;
    this.store = store;
    this.clock = clock;
    this.settings = settings;
    this.ways = ways(settings, clock);
    this.alerts = new HostAlerts(store, clock, benchClock, this, live, takes);
    this.failing = new FailingNotices(store, alerts);
  }

  /** What the host raises itself, that notices fail among it; told of by this desk. */
  public HostAlerts alerts() {
    return alerts;
  }

  private static List<NoticeChannel> ways(NoticeSettings settings, InstantSource clock) {
    List<NoticeChannel> ways = new ArrayList<>();
    if (settings.mail() != null) {
      ways.add(new MailChannel(settings.mail()));
    }
    if (settings.webhook() != null) {
      ways.add(new WebhookChannel(settings.webhook(), clock));
    }
    return List.copyOf(ways);
  }

  @Override
  public void alert(Handle handle, String bench, String before, AlertNotice notice) {
    boolean begins = notice.state().equals("raised");
    boolean ends = notice.state().equals("cleared") && before.equals("raised");
    if (!begins && !ends) {
      return; // A first warning is for the page.
    }
    boolean own = notice.code().equals(FailingNotices.CODE);
    if (own && ends) {
      return; // That they arrive again is seen from their arriving.
    }
    // A reminder is told once too often rather than never again.
    if (!notice.again() && unstored.has(UnstoredNotices.name(bench, notice))) {
      return;
    }
    for (NoticeRow row : rows(bench, notice)) {
      if (own && isFailing(handle, bench, row.way())) {
        continue; // What does not arrive need not be told of by the same way.
      }
      if (notice.again()) {
        supersede(handle, row, notice);
      }
      store.notices().insert(handle, row);
    }
  }

  @Override
  public void unstored(String bench, AlertNotice notice, Instant at) {
    unstored.add(UnstoredNotices.name(bench, notice), at, rows(bench, notice));
  }

  private List<NoticeRow> rows(String bench, AlertNotice notice) {
    Instant now = clock.instant();
    Instant due = now.plus(settings.grouping());
    if (settings.quiet() != null && !settings.urgent().contains(notice.code())) {
      due = settings.quiet().firstLoud(due);
    }
    List<NoticeRow> rows = new ArrayList<>();
    for (NoticeChannel way : ways) {
      rows.add(
          new NoticeRow(
              UUID.randomUUID().toString(),
              way.name(),
              bench,
              due,
              now,
              Json.written(notice),
              Optional.empty(),
              0));
    }
    return rows;
  }

  private boolean isFailing(Handle handle, String bench, String way) {
    return store.notices().waiting(handle, bench, way).stream().anyMatch(row -> row.tries() > 0);
  }

  /** Nobody wants ten mails of one alert once the mail server works again. */
  private void supersede(Handle handle, NoticeRow by, AlertNotice notice) {
    for (NoticeRow row : store.notices().waiting(handle, by.bench(), by.way())) {
      AlertNotice before = of(row);
      boolean same =
          before.code().equals(notice.code())
              && Objects.equals(before.cup(), notice.cup())
              && Objects.equals(before.tank(), notice.tank());
      if (same && before.again()) {
        store.notices().supersede(handle, row, by.made());
      }
    }
  }

  /** Sends all that is due. */
  public void run() {
    boolean stores = takes.getAsBoolean();
    if (stores) {
      storeAgain();
    }
    Map<String, List<NoticeRow>> messages = new LinkedHashMap<>();
    for (NoticeRow row : unstored.due(storedAndDue(stores), clock.instant())) {
      // What was sent together once goes together again, under the same id.
      String together = row.message().orElse("new " + row.bench());
      String from = unstored.isOfHere(row) ? "memory " : "store ";
      messages
          .computeIfAbsent(from + row.way() + " " + together, key -> new ArrayList<>())
          .add(row);
    }
    messages.values().forEach(rows -> send(rows, stores));
  }

  private List<NoticeRow> storedAndDue(boolean stores) {
    try {
      return store.notices().due(clock.instant());
    } catch (JdbiException away) {
      if (stores) {
        throw away;
      }
      LOG.debug("only what is in memory can be sent", away);
      return List.of();
    }
  }

  /** What was sent from memory meanwhile is settled, and what was not is kept as all others. */
  private void storeAgain() {
    List<NoticeRow> waiting = unstored.toStore();
    if (!waiting.isEmpty()) {
      store.write(handle -> waiting.forEach(row -> store.notices().insert(handle, row)));
    }
    Instant now = clock.instant();
    unstored
        .toSettle()
        .forEach(
            (message, rows) -> {
              if (store.notices().claim(rows, message, now)) {
                store.notices().settle(message, now, SENT);
              }
            });
  }

  private void send(List<NoticeRow> rows, boolean stores) {
    Optional<NoticeChannel> way =
        ways.stream().filter(each -> each.name().equals(rows.get(0).way())).findFirst();
    if (stores) {
      send(rows, way);
    } else {
      sendFromMemory(rows, way);
    }
  }

  private void sendFromMemory(List<NoticeRow> rows, Optional<NoticeChannel> way) {
    NoticeRow first = rows.get(0);
    Instant now = clock.instant();
    int tried = unstored.tried(first);
    unstored.next(rows, tried, now.plus(pauseAfter(tried)));
    String ids = rows.stream().map(NoticeRow::id).collect(Collectors.joining());
    String id =
        first
            .message()
            .orElseGet(
                () -> UUID.nameUUIDFromBytes(ids.getBytes(StandardCharsets.UTF_8)).toString());
    try {
      if (way.isPresent()) {
        way.get()
            .send(new Message(id, first.bench(), rows.stream().map(NoticeService::of).toList()));
      }
      unstored.done(rows);
    } catch (NotSentException refused) {
      warn(first, refused);
    }
  }

  private static void warn(NoticeRow row, NotSentException refused) {
    LOG.atWarn()
        .addKeyValue("bench", row.bench())
        .addKeyValue("way", row.way())
        .log("A notice was not sent by {}: {}", row.way(), refused.getMessage());
  }

  private void send(List<NoticeRow> rows, Optional<NoticeChannel> way) {
    NoticeRow first = rows.get(0);
    String id = first.message().orElseGet(() -> UUID.randomUUID().toString());
    Instant now = clock.instant();
    if (!store.notices().claim(rows, id, now.plus(pauseAfter(first.tries())))) {
      return;
    }
    if (way.isEmpty()) {
      store.notices().settle(id, now, "no longer in the settings");
      return;
    }
    try {
      way.get().send(new Message(id, first.bench(), rows.stream().map(NoticeService::of).toList()));
      store.notices().settle(id, now, "sent");
      store.notices().dueNow(first.way(), now);
      failing.wentThrough(first.bench(), first.way());
    } catch (NotSentException refused) {
      warn(first, refused);
      failing.failed(first.bench(), first.way(), refused.getMessage());
    }
  }

  private static Duration pauseAfter(int tries) {
    Duration pause = FIRST_AGAIN.multipliedBy(1L << Math.min(tries, 6));
    return pause.compareTo(RAREST_AGAIN) > 0 ? RAREST_AGAIN : pause;
  }

  /**
   * Sends a notice that says it is only a test, now, on every way.
   *
   * @return for each way what became of it
   */
  public static Map<String, String> test(NoticeSettings settings, InstantSource clock) {
    Message message =
        new Message(
            UUID.randomUUID().toString(),
            "test",
            List.of(
                new AlertNotice(
                    "test",
                    null,
                    "raised",
                    clock.instant(),
                    1,
                    0,
                    "Nothing: somebody tested whether notices arrive.")));
    Map<String, String> outcomes = new LinkedHashMap<>();
    for (NoticeChannel way : ways(settings, clock)) {
      try {
        way.send(message);
        outcomes.put(way.name(), SENT);
      } catch (NotSentException refused) {
        LOG.debug("the test notice was refused", refused);
        outcomes.put(way.name(), refused.getMessage());
      }
    }
    return outcomes;
  }

  /** What {@link #test} says of a way that took the notice. */
  public static final String SENT = "sent";

  private static AlertNotice of(NoticeRow row) {
    try {
      return Json.MAPPER.readValue(row.body(), AlertNotice.class);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not a notice", damaged);
    }
  }
}
