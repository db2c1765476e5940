package dev.cupwarden.host.watch;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Benches.Hearing;
import dev.cupwarden.host.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.BooleanSupplier;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Raises {@code controller-silent} for a bench whose controller is gone, or whose loop finishes no
 * tick, and clears it when a tick is seen to be finished. Life is the beat alone: that a process is
 * connected, or tells old events again, is none.
 *
 * <p>A controller from before there were beats, or put back to it more than a day ago, is judged by
 * the ticks that it tells of in its bench's status.
 */
public final class SilenceWatch {
  /** A controller that restarts is back within this. */
  static final Duration GONE = Duration.ofMinutes(2);

  /** Without beats: what is connected tells of each tick; this much longer is no longer chance. */
  static final Duration STILL = Duration.ofMinutes(4);

  /** So long after its last beat a controller that tells of ticks is taken for an older one. */
  static final Duration OLDER_AFTER = Duration.ofDays(1);

  private static final String CODE = AlertCode.CONTROLLER_SILENT.word();
  private static final double S_PER_MIN = 60;
  private static final Logger LOG = LoggerFactory.getLogger(SilenceWatch.class);

  private final Store store;
  private final InstantSource clock;
  private final Heartbeats beats;
  private final HostAlerts alerts;
  private final BooleanSupplier connected;
  private final BooleanSupplier takes;
  private final Instant started;
  private final Map<String, Instant> raised = new HashMap<>();
  private final Map<String, Hearing> known = new TreeMap<>();

  /**
   * @param clock this machine's time, by which silence is measured
   * @param connected whether this host is connected to the broker
   * @param takes whether the store takes what it is given
   */
  public SilenceWatch(
      Store store,
      InstantSource clock,
      Heartbeats beats,
      HostAlerts alerts,
      BooleanSupplier connected,
      BooleanSupplier takes) {
    this.store = store;
    this.clock = clock;
    this.beats = beats;
    this.alerts = alerts;
    this.connected = connected;
    this.takes = takes;
    this.started = clock.instant();
  }

  /** Looks at every bench. */
  public void run() {
    hearings().forEach(this::look);
  }

  /** From the store, where it answers; else as it was, with what beats since. */
  private List<Hearing> hearings() {
    if (takes.getAsBoolean()) {
      try {
        keepBeats();
        store.benches().hearings().forEach(each -> known.put(each.bench(), each));
      } catch (JdbiException away) {
        LOG.debug("benches are looked at from memory", away);
      }
    }
    for (String bench : beats.benches()) {
      known.computeIfAbsent(bench, SilenceWatch::unknown);
    }
    return List.copyOf(known.values());
  }

  private static Hearing unknown(String bench) {
    return new Hearing(bench, null, Optional.empty(), Optional.empty(), null, Optional.empty());
  }

  /** So that after a restart it is known who beats. */
  private void keepBeats() {
    for (String bench : beats.benches()) {
      Instant heard = beats.of(bench).orElseThrow().heard();
      Hearing before = known.get(bench);
      if (before == null || before.beat().filter(heard::equals).isEmpty()) {
        store.write(handle -> store.benches().beat(handle, bench, heard));
      }
    }
  }

  private void look(Hearing bench) {
    Instant now = clock.instant();
    boolean open = alerts.isOpen(bench.bench(), CODE);
    ControllerLiveness liveness = judge(bench, now);
    if (liveness.tooLong()) {
      if (!open) {
        raised.put(bench.bench(), now);
      }
      alerts.raised(finding(bench, liveness));
    } else if (open && tickedSince(bench, raised.getOrDefault(bench.bench(), started))) {
      alerts.over(finding(bench, liveness));
    }
  }

  private HostAlerts.AlertContent finding(Hearing bench, ControllerLiveness liveness) {
    String whatToDo =
        connected.getAsBoolean()
            ? liveness.whatToDo()
            : "The host does not reach the broker: look at the network between them.";
    return new HostAlerts.AlertContent(
        bench.bench(),
        CODE,
        liveness.lasted().toSeconds() / S_PER_MIN,
        liveness.limit().toSeconds() / S_PER_MIN,
        whatToDo);
  }

  private boolean tickedSince(Hearing bench, Instant since) {
    Optional<Instant> ticked =
        hasBeats(bench, clock.instant())
            ? beats.of(bench.bench()).flatMap(Heartbeats.Life::progressed)
            : bench.heard();
    return ticked.filter(since::isBefore).isPresent();
  }

  private Optional<Instant> lastBeat(Hearing bench) {
    return beats.of(bench.bench()).map(Heartbeats.Life::heard).or(bench::beat);
  }

  /** Not for ever: a program may have been put back to one that has none. */
  private boolean hasBeats(Hearing bench, Instant now) {
    return lastBeat(bench).filter(beat -> now.isBefore(beat.plus(OLDER_AFTER))).isPresent();
  }

  /** Silence before this host began to listen does not count: nobody could have heard. */
  ControllerLiveness judge(Hearing bench, Instant now) {
    boolean beating = hasBeats(bench, now);
    Optional<Heartbeats.Life> life = beats.of(bench.bench());
    // Whether or not it is gone just now: a start that lives for a second is back in two, for ever.
    if (beating && life.filter(each -> ControllerLiveness.isInVain(each.last())).isPresent()) {
      return ControllerLiveness.of(life.get(), now);
    }
    Optional<Instant> sign = beating ? lastBeat(bench) : bench.heard();
    Instant turned = later(bench.turned().orElse(started), started);
    if ("offline".equals(bench.presence()) && sign.filter(turned::isBefore).isEmpty()) {
      return pulse(
          Duration.between(turned, now), GONE, "Check that the controller has power and network.");
    }
    if (beating && life.isPresent()) {
      return ControllerLiveness.of(life.get(), now);
    }
    Duration silent = Duration.between(later(sign.orElse(started), started), now);
    return beating
        ? pulse(
            silent,
            ControllerLiveness.NO_BEAT,
            "Its loop does not report: look at its log, or restart it.")
        : pulse(
            silent,
            patience(bench),
            "Connected, but nothing comes: look at the controller's log, or restart it.");
  }

  private static ControllerLiveness pulse(Duration lasted, Duration limit, String whatToDo) {
    return new ControllerLiveness(lasted, limit, lasted.compareTo(limit) >= 0, whatToDo);
  }

  private Duration patience(Hearing bench) {
    Duration ticks = Duration.ofSeconds((long) (2 * tickS(bench.status()) + S_PER_MIN));
    boolean patient = connected.getAsBoolean() && ticks.compareTo(STILL) > 0;
    return patient ? ticks : STILL;
  }

  private static Instant later(Instant one, Instant other) {
    return one.isAfter(other) ? one : other;
  }

  private static double tickS(String status) {
    if (status == null) {
      return 0;
    }
    try {
      return Json.MAPPER.readTree(status).path("tick_s").asDouble();
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not JSON", damaged);
    }
  }
}
