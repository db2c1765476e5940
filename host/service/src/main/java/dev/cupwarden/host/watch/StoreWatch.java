package dev.cupwarden.host.watch;

import dev.cupwarden.host.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Writes a mark into the store now and again, and looks how much room its disk has left. The store
 * takes what it is given while a mark was written within the last minute and nothing that benches
 * said has waited for longer. A mark alone proves little: it may fit where nothing else does.
 */
public final class StoreWatch {
  /** Three marks; no pause for a snapshot or a checkpoint is as long. */
  static final Duration PATIENCE = Duration.ofMinutes(1);

  /** Our choice: some weeks of two hundred cups, or, on a small disk, one part in twenty. */
  static final long LEAST_BYTES = 500_000_000;

  static final double LEAST_PART = 0.05;

  /** So that a file that comes and goes does not tell of it each time. */
  private static final double ENOUGH_AGAIN = 1.2;

  /** Told of the host itself; no controller has such an alert. */
  public static final String CODE = "host-store-full";

  private static final int WORSE_THAN_LOW = 1;
  private static final double BYTES_PER_MB = 1e6;
  private static final double S_PER_MIN = 60;
  private static final int LONGEST_REASON = 160;
  private static final Logger LOG = LoggerFactory.getLogger(StoreWatch.class);

  private final Store store;
  private final String host;
  private final InstantSource clock;
  private final Disk disk;
  private final Supplier<Optional<Instant>> waitingSince;
  private final Consumer<State> changed;
  private volatile Instant marked = Instant.MIN;
  private volatile State state;
  private String reason = "nothing was tried yet";
  private boolean low;

  /**
   * How the store is.
   *
   * @param takes whether it takes what it is given
   * @param since when that began; empty at the start
   * @param freeMb left on its disk, MB; empty where that cannot be seen
   * @param low whether that is little
   */
  public record State(boolean takes, Optional<Instant> since, OptionalDouble freeMb, boolean low) {}

  /**
   * @param host this host's own name
   * @param waitingSince since when what benches said could not be stored
   * @param changed hears of each state that is not as the one before
   */
  public StoreWatch(
      Store store,
      String host,
      InstantSource clock,
      Disk disk,
      Supplier<Optional<Instant>> waitingSince,
      Consumer<State> changed) {
    this.store = store;
    this.host = host;
    this.clock = clock;
    this.disk = disk;
    this.waitingSince = waitingSince;
    this.changed = changed;
    this.state = new State(false, Optional.empty(), OptionalDouble.empty(), false);
  }

  /** The first mark. A host whose store takes nothing starts all the same: it can tell of it. */
  public void start() {
    mark();
    look();
  }

  /** Whether the store takes what it is given, by what is known now. */
  public boolean takes() {
    Instant now = clock.instant();
    return now.isBefore(deadline(marked))
        && waitingSince.get().map(since -> now.isBefore(deadline(since))).orElse(true);
  }

  private static Instant deadline(Instant since) {
    return since.equals(Instant.MIN) ? since : since.plus(PATIENCE);
  }

  public State state() {
    return state;
  }

  /** Writes a mark, if the store takes it. */
  public void mark() {
    try {
      store.mark(host, clock.instant());
      marked = clock.instant();
    } catch (JdbiException refused) {
      reason = sentenceOf(refused);
      LOG.warn("The store did not take the host's mark: {}", reason);
    }
  }

  /** Says of the host's own alerts what is so. */
  public void tell(HostAlerts alerts) {
    look();
    State now = state;
    if (!now.takes()) {
      alerts.raised(takesNothing());
    } else if (now.low()) {
      alerts.raised(isLow(now.freeMb().orElse(0)));
    } else {
      alerts.over(isLow(now.freeMb().orElse(0)));
    }
  }

  private void look() {
    Optional<Disk.Room> room = disk.room();
    low = room.map(this::isLow).orElse(false);
    boolean takes = takes();
    State before = state;
    boolean turned = takes != before.takes() && before.since().isPresent();
    Instant now = clock.instant();
    State next =
        new State(
            takes,
            Optional.of(turned || before.since().isEmpty() ? now : before.since().get()),
            room.map(each -> OptionalDouble.of(Math.rint(each.freeBytes() / BYTES_PER_MB)))
                .orElse(OptionalDouble.empty()),
            low);
    state = next;
    if (!next.equals(before)) {
      changed.accept(next);
    }
  }

  private boolean isLow(Disk.Room room) {
    return room.freeBytes() < leastBytes(room) * (low ? ENOUGH_AGAIN : 1);
  }

  private static double leastBytes(Disk.Room room) {
    return Math.min(LEAST_BYTES, LEAST_PART * room.bytes());
  }

  private HostAlerts.AlertContent isLow(double freeMb) {
    double leastMb = disk.room().map(StoreWatch::leastBytes).orElse(0.0) / BYTES_PER_MB;
    String words =
        String.format(
            Locale.ROOT,
            "The disk of the host's store has %.0f MB left; once it is full nothing of any bench is"
                + " kept. Make room on it, or keep readings for a shorter time (--keep-readings) and"
                + " give the room back (store vacuum).",
            freeMb);
    return new HostAlerts.AlertContent(HostAlerts.HOST, CODE, freeMb, Math.rint(leastMb), words);
  }

  private HostAlerts.AlertContent takesNothing() {
    Instant now = clock.instant();
    Instant since = waitingSince.get().orElse(now);
    since = marked.isBefore(since) && !marked.equals(Instant.MIN) ? marked : since;
    String words =
        "The host's store has taken nothing since "
            + since.truncatedTo(ChronoUnit.MINUTES)
            + " ("
            + reason
            + "). Make room on its disk, or look at its database. The benches go on by themselves"
            + " and tell all of it later; alerts are told from memory meanwhile.";
    double min = Duration.between(since, now).toSeconds() / S_PER_MIN;
    return new HostAlerts.AlertContent(
        HostAlerts.HOST, CODE, min, PATIENCE.toSeconds() / S_PER_MIN, words, WORSE_THAN_LOW);
  }

  /** What a bench's words were refused for, where marks still fit. */
  public void refused(Throwable why) {
    reason = sentenceOf(why);
  }

  /** The database's own words on one line; never an address with a password, which it has not. */
  private static String sentenceOf(Throwable refused) {
    Throwable root = refused;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    String line =
        String.valueOf(root.getMessage()).lines().findFirst().orElse("no reason given").strip();
    return line.substring(0, Math.min(line.length(), LONGEST_REASON)).replaceAll("\\.$", "");
  }
}
