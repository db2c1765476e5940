package dev.cupwarden.app.loop;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.clock.BenchTime;
import dev.cupwarden.app.clock.SteadyClock;
import dev.cupwarden.app.journal.Happening;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.KeptState;
import dev.cupwarden.app.journal.ObservationLine;
import dev.cupwarden.app.journal.TickEntry;
import dev.cupwarden.app.link.SenmlPack;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.core.BenchState;
import dev.cupwarden.core.TankState;
import dev.cupwarden.core.Tick;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Ticks of a bench, one after the other. Within one the order is: read, decide, put all of it down
 * in one transaction, run the pump, put down what became of it, tell. When the transaction fails
 * the tick has not happened: nothing is watered, and the next one decides from the state before.
 */
public final class BenchLoop {
  /** The longest span of the board's on-time caps. */
  private static final Duration CAPS_REACH = Duration.ofDays(1);

  private static final Logger log = LoggerFactory.getLogger(BenchLoop.class);

  /**
   * What a loop works with.
   *
   * @param benchText the bench file as it was read
   * @param trouble why the true journal cannot be used: everything is read and told then, and
   *     nothing watered; none when it can
   */
  public record Parts(
      Bench bench,
      String benchText,
      BenchHardware hardware,
      Journal journal,
      BenchTime time,
      TickReport.Listener listener,
      String version,
      Optional<String> trouble) {}

  /** Hears of the loop's progress, on its own thread. */
  public interface Signs {
    /** Within a tick, something was done. */
    void moved();

    /** A tick is over; {@code well}: all of it was done. */
    void over(boolean well);
  }

  private static final Signs NOBODY =
      new Signs() {
        @Override
        public void moved() {}

        @Override
        public void over(boolean well) {}
      };

  private final Parts parts;
  private final Tick tick;
  private final SteadyClock clock;
  private final Pump pump;
  private final Story story;
  private final OwnAlerts alerts = new OwnAlerts();
  private final Decisions decisions = new Decisions();
  private final Restraint restraint = new Restraint();
  private final StoreWatch store;
  private final DayEnd dayEnd;
  private final BoardFaults faults = new BoardFaults(alerts);
  private final long firstTickNanos;
  private BenchState state;
  private volatile Signs signs = NOBODY;
  private volatile boolean stopping;
  private volatile Thread thread;

  private BenchLoop(Parts parts, Tick tick, BenchState state, SteadyClock clock, Duration settle) {
    this.parts = parts;
    this.tick = tick;
    this.state = state;
    this.clock = clock;
    this.pump = new Pump(parts.hardware(), parts.journal(), parts.time());
    this.story = new Story(parts.bench(), parts.version());
    this.store = new StoreWatch(parts.journal(), alerts);
    this.dayEnd = new DayEnd(parts);
    this.firstTickNanos = parts.time().nanos() + settle.toNanos();
    parts
        .trouble()
        .ifPresent(
            why ->
                store.failed(
                    clock.now(),
                    "Nothing is watered, for what was given is not known: look at the journal ("
                        + why
                        + ")."));
  }

  /**
   * Takes up the bench where the journal left it. A pass that a crash cut off counts as given, and
   * the first tick waits for one soak, so that the cup's weight can show what arrived.
   *
   * @throws JournalException when the journal cannot be read or written, or its state not be
   *     understood
   * @throws SetupException when a cup's lines are out of order
   */
  public static BenchLoop resume(Parts parts) throws JournalException, SetupException {
    Tick tick = new Tick(parts.bench());
    Optional<Journal.Restored> restored = parts.journal().restored();
    BenchState state = tick.fresh();
    if (restored.isPresent()) {
      Optional<String> benchBefore = parts.journal().lastBench();
      state = new TakeUp(parts.bench(), state).of(restored.get().state(), benchBefore);
    }
    SteadyClock clock =
        restored.isPresent()
            ? SteadyClock.after(restored.get().at(), parts.time())
            : SteadyClock.fresh(parts.time());
    List<Journal.Intent> cutOff =
        parts
            .journal()
            .start(
                new Journal.Start(
                    clock.now(), parts.benchText(), KeptState.json(state), parts.version()));
    for (Journal.Intent intent : cutOff) {
      log.warn(
          "The pass of {} mL to {} was cut off by the last stop; it counts as given.",
          String.format(Locale.ROOT, "%.1f", intent.pass().plainMl() + intent.pass().feedMl()),
          intent.pass().cup());
    }
    // A moment more than the soak: the start's own time may be a clock's least step late.
    Duration settle =
        cutOff.isEmpty() ? Duration.ZERO : parts.bench().watering().soak().plusSeconds(1);
    for (Journal.Ran ran : parts.journal().ranSince(clock.now().minus(CAPS_REACH))) {
      Duration ago = Duration.between(ran.at(), clock.now());
      parts.hardware().ranBefore(ago.isNegative() ? Duration.ZERO : ago, ran.ml());
    }
    return new BenchLoop(parts, tick, state, clock, settle);
  }

  private static String written(Object value) {
    try {
      return Json.MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot be written as JSON: " + value.getClass(), e);
    }
  }

  /** Ticks until {@link #stop}; the calling thread is the loop's. */
  public void run() {
    thread = Thread.currentThread();
    long periodNanos = parts.bench().tick().toNanos();
    long next = firstTickNanos;
    try {
      parts.time().until(next);
      while (!stopping) {
        tickSafely();
        // A tick that took longer than its period is followed by the next one that is due.
        long lateNanos = Math.max(0, parts.time().nanos() - next);
        next += periodNanos * (1 + lateNanos / periodNanos);
        parts.time().until(next);
      }
    } finally {
      parts.hardware().allOff();
    }
  }

  /** From now on these hear of the loop's progress. */
  public void tell(Signs hearing) {
    signs = hearing;
  }

  /** How long the first tick waits. */
  public Duration settling() {
    return Duration.ofNanos(Math.max(0, firstTickNanos - parts.time().nanos()));
  }

  /** Why nothing is watered in this run; none when all is well. */
  public Optional<String> trouble() {
    return parts.trouble();
  }

  /** Ends the loop: a pass that runs is cut short, everything is off. From any thread. */
  public void stop() {
    stopping = true;
    parts.hardware().allOff();
    Thread running = thread;
    if (running != null) {
      running.interrupt();
    }
  }

  /** One tick; what fails in it is told and ends it, not the loop. */
  void tickSafely() {
    try {
      signs.moved();
      tick();
      signs.over(true);
    } catch (JournalException e) {
      signs.over(false);
      log.error("{}; this tick waters nothing", e.getMessage());
      store.failed(
          clock.now(),
          "The journal cannot be written, so nothing is watered: look at the controller's disk.");
    } catch (RuntimeException e) {
      signs.over(false);
      // One tick is lost; the pump must not stay on for it, nor the bench go without the next.
      parts.hardware().allOff();
      log.error("A tick failed and watered nothing", e);
    }
  }

  /** One tick; in {@link #run} one after the other, in tests one by one. */
  void tick() throws JournalException {
    pump.putDownWhatIsLeft();
    Instant at = clock.now();
    BoardReadings read = parts.hardware().read();
    signs.moved();
    faults.look(at, read.faults());
    List<JsonNode> orders = new ArrayList<>(parts.journal().waitingOrders());
    List<String> orderIds = orders.stream().map(order -> order.path("id").asText()).toList();
    lookAtClock(at, orders);
    store.look(at);
    Observation seen = observation(at, read, orders);
    Tick.Step step = tick.step(state, seen);
    Tick.Standing standing = tick.standing(step.state());
    List<Happening> events = new ArrayList<>(alerts.untold(at));
    events.addAll(story.of(at, orders, step.brief()));
    events.addAll(decisions.untold(at, standing.decisions()));
    List<Advice.Pass> passes = parts.trouble().isEmpty() ? step.brief().passes() : List.of();
    List<Journal.Intent> intents =
        parts
            .journal()
            .commit(
                new TickEntry(
                    at,
                    ObservationLine.of(seen),
                    step.state(),
                    senml(seen),
                    passes,
                    events,
                    orderIds));
    alerts.told();
    decisions.told();
    if (parts.trouble().isEmpty()) {
      store.worked();
    }
    state = step.state();
    signs.moved();
    List<Dose> doses = pump.give(step.passes(), intents, () -> stopping);
    dayEnd.afterTick(at, state);
    parts
        .listener()
        .ticked(
            new TickReport(
                at,
                step.advice(),
                doses,
                standing.statuses(),
                story.bench(at, seen, state),
                tick.setup(state)));
  }

  private void lookAtClock(Instant at, List<JsonNode> orders) {
    boolean personLooked =
        orders.stream().anyMatch(o -> o.path("kind").asText().equals("clear") && !o.has("cup"));
    if (!clock.trusted() && personLooked) {
      clock.acceptWall();
    }
    if (!clock.trusted()) {
      alerts.raise(
          "clock",
          at,
          clock.aheadS(),
          SteadyClock.JUMP_S,
          "Set the controller's clock, then clear; until then only rescues are given.");
    } else {
      alerts.clear("clock", clock.aheadS());
    }
    if (parts.trouble().isPresent()) {
      restraint.hold("store", false, at, state.hold()).ifPresent(orders::add);
    } else if (!clock.trusted()) {
      restraint.hold("clock", true, at, state.hold()).ifPresent(orders::add);
    } else {
      restraint.over("clock", at).ifPresent(orders::add);
    }
  }

  private Optional<String> senml(Observation seen) {
    List<SenmlRecord> pack = SenmlPack.of(parts.bench().name(), seen);
    return pack.isEmpty() ? Optional.empty() : Optional.of(written(pack));
  }

  /**
   * A float that is up says only that there is at least so much: what was reckoned stands where it
   * is more.
   */
  private SortedMap<String, Double> tankMl(BoardReadings read) {
    SortedMap<String, Double> tankMl = new TreeMap<>(read.tankMl());
    read.tankAtLeastMl()
        .forEach(
            (tank, atLeastMl) -> {
              TankState reckoned = state.tanks().get(tank);
              if (reckoned != null && Double.isFinite(reckoned.leftMl())) {
                tankMl.put(tank, Math.max(atLeastMl, reckoned.leftMl()));
              }
            });
    return tankMl;
  }

  private Observation observation(Instant at, BoardReadings read, List<JsonNode> orders) {
    return new Observation(
        at,
        read.airC(),
        read.rhPct(),
        read.rootC(),
        OptionalDouble.empty(),
        read.massG(),
        read.theta(),
        tankMl(read),
        read.leak(),
        List.copyOf(orders));
  }
}
