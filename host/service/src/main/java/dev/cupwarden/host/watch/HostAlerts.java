package dev.cupwarden.host.watch;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.ingest.AlertListener;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Alerts.Key;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The alerts that a host raises itself: told when they begin and end, and each day while they last.
 * They live in the store, so a restart neither forgets nor repeats them; while it takes nothing
 * they live in memory, are told from there, and are stored afterwards.
 */
public final class HostAlerts {
  /** Of whom an alert is that concerns no bench but the host itself. */
  public static final String HOST = "";

  static final Duration AGAIN_AFTER = Duration.ofDays(1);

  /** Once a person has marked it as seen: a bench that was taken down is told of for ever. */
  static final Duration AGAIN_AFTER_SEEN = Duration.ofDays(7);

  private static final Logger LOG = LoggerFactory.getLogger(HostAlerts.class);

  private final Store store;
  private final InstantSource clock;
  private final InstantSource benchClock;
  private final AlertListener alertListener;
  private final Consumer<LiveEvent> live;
  private final BooleanSupplier takes;
  private final Instant started;

  /** The last word on each; by bench and code. */
  private final Map<String, Standing> standings = new TreeMap<>();

  /**
   * @param clock this machine's time, by which days are counted
   * @param benchClock the benches' time, in which alerts are written
   * @param takes whether the store takes what it is given
   */
  public HostAlerts(
      Store store,
      InstantSource clock,
      InstantSource benchClock,
      AlertListener alertListener,
      Consumer<LiveEvent> live,
      BooleanSupplier takes) {
    this.store = store;
    this.clock = clock;
    this.benchClock = benchClock;
    this.alertListener = alertListener;
    this.live = live;
    this.takes = takes;
    this.started = clock.instant();
  }

  /**
   * What was found.
   *
   * @param bench whose, or {@link #HOST}
   * @param severity what is worse than what was told is told anew
   */
  public record AlertContent(
      String bench, String code, double value, double threshold, String whatToDo, int severity) {
    public AlertContent(
        String bench, String code, double value, double threshold, String whatToDo) {
      this(bench, code, value, threshold, whatToDo, 0);
    }

    private Key key() {
      return new Key(bench, code, Optional.empty());
    }

    private AlertNotice notice(String state, Instant since) {
      return new AlertNotice(code, null, state, since, value, threshold, whatToDo);
    }
  }

  /**
   * @param told to people, by this machine's clock
   * @param seen whether a person has marked it as seen
   * @param due it is told if no host has told it since
   * @param kept where it is
   */
  private record Standing(
      Key key,
      AlertNotice notice,
      int severity,
      Instant told,
      boolean seen,
      Instant due,
      Kept kept) {
    boolean isOpen() {
      return !notice.state().equals("cleared");
    }

    Standing kept(Kept now) {
      return new Standing(key, notice, severity, told, seen, due, now);
    }
  }

  private enum Kept {
    NOT_YET,
    /** It went out from memory, and the store does not have it. */
    TOLD,
    STORED
  }

  /** Whether it stands. */
  public synchronized boolean isOpen(String bench, String code) {
    return standing(new Key(bench, code, Optional.empty())).filter(Standing::isOpen).isPresent();
  }

  /** It is so: told if that is new or worse than what was told, and a day after it was told. */
  public synchronized void raised(AlertContent finding) {
    Optional<Standing> before = standing(finding.key()).filter(Standing::isOpen);
    Instant now = clock.instant();
    if (before.isEmpty()) {
      tell(finding, finding.notice("raised", notBefore(finding.key())), now);
      return;
    }
    Instant since = before.get().notice().since();
    Duration pause = before.get().seen() ? AGAIN_AFTER_SEEN : AGAIN_AFTER;
    AlertNotice again = finding.notice("raised", since).toldAgain();
    if (finding.severity() > before.get().severity()) {
      tell(finding, again, now);
    } else if (!now.isBefore(before.get().told().plus(pause))) {
      tell(finding, again, now.minus(pause));
    }
  }

  /** It is no longer so. */
  public synchronized void over(AlertContent finding) {
    if (isOpen(finding.bench(), finding.code())) {
      tell(finding, finding.notice("cleared", notBefore(finding.key())), clock.instant());
    }
  }

  /** The benches' time, which may have been set back: an older word would change nothing. */
  private Instant notBefore(Key key) {
    Instant now = benchClock.instant();
    Instant last = standing(key).map(each -> each.notice().since()).orElse(now);
    return last.isAfter(now) ? last : now;
  }

  /** Stores what could not be stored before, or tells it from memory. */
  public synchronized void catchUp() {
    for (Standing each : List.copyOf(standings.values())) {
      if (each.kept() != Kept.STORED) {
        keep(each);
      }
    }
  }

  /** Another host may have changed what is stored; what is not stored yet is this one's own. */
  private Optional<Standing> standing(Key key) {
    Standing mine = standings.get(name(key));
    if (!takes.getAsBoolean() || (mine != null && mine.kept() != Kept.STORED)) {
      return Optional.ofNullable(mine);
    }
    try {
      Optional<Standing> stored = store.alerts().find(key).map(this::of);
      stored.ifPresent(each -> standings.put(name(key), each));
      return stored;
    } catch (JdbiException away) {
      LOG.debug("the store does not answer", away);
      return Optional.ofNullable(mine);
    }
  }

  private Standing of(AlertRow row) {
    try {
      AlertNotice notice = Json.MAPPER.readValue(row.notice(), AlertNotice.class);
      Standing mine = standings.get(name(row.key()));
      Instant told = row.told().orElse(started);
      return new Standing(
          row.key(),
          notice,
          mine == null ? 0 : mine.severity(),
          told,
          row.seen().isPresent(),
          told,
          Kept.STORED);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not a notice", damaged);
    }
  }

  private static String name(Key key) {
    return key.bench() + "\n" + key.code();
  }

  private void tell(AlertContent finding, AlertNotice notice, Instant due) {
    int severity = notice.state().equals("cleared") ? 0 : finding.severity();
    keep(new Standing(finding.key(), notice, severity, clock.instant(), false, due, Kept.NOT_YET));
  }

  private void keep(Standing told) {
    standings.put(name(told.key()), told);
    if (takes.getAsBoolean()) {
      store(told);
    } else if (told.kept() == Kept.NOT_YET) {
      standings.put(name(told.key()), told.kept(Kept.TOLD));
      alertListener.unstored(told.key().bench(), told.notice(), told.told());
    }
  }

  private void store(Standing told) {
    Event[] event = new Event[1];
    try {
      store.write(handle -> event[0] = write(handle, told));
    } catch (JdbiException notNow) {
      LOG.warn("{} is not stored yet: {}", told.notice().code(), notNow.toString());
      return;
    }
    standings.put(name(told.key()), told.kept(Kept.STORED));
    if (!told.key().bench().equals(HOST)) {
      live.accept(LiveEvent.event(told.key().bench(), event[0]));
    }
  }

  private Event write(Handle handle, Standing told) {
    AlertNotice notice = told.notice();
    String json = Json.written(notice);
    Key key = told.key();
    Optional<String> before = store.alerts().put(handle, key, notice.state(), notice.since(), json);
    boolean mine = store.alerts().told(handle, key, told.told(), told.due());
    boolean turned = before.filter(state -> !state.equals(notice.state())).isPresent();
    if (turned || (mine && told.isOpen())) {
      alertListener.alert(handle, key.bench(), before.orElse(notice.state()), notice);
    }
    Instant at = notice.again() ? benchClock.instant() : notice.since();
    EventRow row = store.events().insertOwn(handle, key.bench(), at, "alert", null, json);
    return new Event(
        row.epoch(), row.seq(), row.at(), row.kind(), null, Json.MAPPER.valueToTree(notice));
  }
}
