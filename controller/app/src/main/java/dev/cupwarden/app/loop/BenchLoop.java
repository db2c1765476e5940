package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.clock.BenchTime;
import dev.cupwarden.app.clock.SteadyClock;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.ObservationLine;
import dev.cupwarden.app.journal.TickEntry;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Ticks of a bench, one after the other. Within one the order is: read, decide, put all of it down
 * in one transaction, run the pump, put down what became of it, tell. When the transaction fails
 * the tick has not happened: nothing is watered, and the next one decides from the state before.
 */
public final class BenchLoop {
  private static final Logger log = LoggerFactory.getLogger(BenchLoop.class);

  /**
   * What a loop works with.
   *
   * @param benchText the bench file as it was read
   * @param trouble why the true journal cannot be used: everything is read and told then, and
   *     nothing watered; none when it can
   * @param mode whether the bench is watered or only watched
   */
  public record Parts(
      Bench bench,
      String benchText,
      BenchHardware hardware,
      Journal journal,
      BenchTime time,
      TickReport.Listener listener,
      String version,
      Optional<String> trouble,
      RunMode mode) {}

  private final Parts parts;
  private Tick tick;
  private final SteadyClock clock;
  private final Pump pump;
  private final TickEvents tickEvents;
  private final OwnAlerts alerts = new OwnAlerts();
  private final Decisions decisions = new Decisions();
  private final ClockWatch clockWatch;
  private final JournalDiskWatch store;
  private final DailyTrimming dailyTrimming;
  private final BoardFaults faults = new BoardFaults(alerts);
  private final OrderBatch orderBatch = new OrderBatch();
  private final InputWatch inputs;
  private final NameWatch names;
  private final long firstTickNanos;
  private BenchState state;
  private boolean ordersInHand;
  private boolean hoseInDoubt;
  private boolean passesBegun;
  private volatile LoopSigns signs = LoopSigns.NOBODY;
  private volatile boolean stopping;
  private volatile Thread thread;

  private BenchLoop(Parts parts, LoopStart from) {
    this.parts = parts;
    this.tick = from.tick();
    this.state = from.state();
    parts.hardware().stand(state.wirings());
    this.hoseInDoubt = from.cutOff();
    this.clock = from.clock();
    from.standing().forEach(alerts::stands);
    this.pump =
        new Pump(
            watchOnly() ? new WatchedHardware(parts.hardware()) : parts.hardware(),
            parts.journal(),
            clock);
    this.tickEvents = new TickEvents(parts.version());
    this.clockWatch = new ClockWatch(clock, alerts);
    this.store = new JournalDiskWatch(parts.journal(), alerts);
    this.dailyTrimming = new DailyTrimming(parts);
    this.inputs = new InputWatch(parts.journal(), alerts);
    this.names = new NameWatch(parts.bench().name(), alerts);
    this.firstTickNanos = parts.time().nanos() + from.settle().toNanos();
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
    return new BenchLoop(parts, LoopStart.of(parts));
  }

  /** Ticks until {@link #stop}; the calling thread is the loop's. */
  public void run() {
    thread = Thread.currentThread();
    long next = firstTickNanos;
    try {
      signs.doing(settling().isZero() ? Beat.Doing.WAITING : Beat.Doing.SETTLING);
      parts.time().until(next);
      while (!stopping) {
        tickSafely();
        // A tick that took longer than its period is followed by the next one that is due.
        long periodNanos = tick.bench().tick().toNanos();
        long lateNanos = Math.max(0, parts.time().nanos() - next);
        next += periodNanos * (1 + lateNanos / periodNanos);
        parts.time().until(next);
      }
    } finally {
      parts.hardware().allOff();
      signs.doing(Beat.Doing.ENDED);
    }
  }

  /** From now on this knows whether another controller goes by the same name. */
  public void askOfRivals(BooleanSupplier knows) {
    names.ask(knows);
  }

  /** From now on these hear of the loop's progress. */
  public void tell(LoopSigns hearing) {
    signs = hearing;
  }

  /** How long the first tick waits. */
  public Duration settling() {
    return Duration.ofNanos(Math.max(0, firstTickNanos - parts.time().nanos()));
  }

  /** Whether the bench is only watched in this run. */
  public boolean watchOnly() {
    return state.orders().watchOnly();
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
      inputs.tickFinished();
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
      log.error(
          passesBegun
              ? "A tick failed once its passes had begun: they count as given"
              : "A tick failed and watered nothing",
          e);
      inputs.tickFailed(clock.now(), ordersInHand);
    } finally {
      signs.doing(Beat.Doing.WAITING);
    }
  }

  /** One tick; in {@link #run} one after the other, in tests one by one. */
  void tick() throws JournalException {
    ordersInHand = false;
    passesBegun = false;
    signs.doing(Beat.Doing.READING);
    requireMark();
    pump.putDownWhatIsLeft();
    Instant at = clock.now();
    BoardReadings read = parts.hardware().read();
    signs.moved();
    signs.doing(Beat.Doing.DECIDING);
    boolean boardFault = faults.look(at, read);
    long begunNanos = System.nanoTime();
    List<JsonNode> orders =
        new ArrayList<>(clockWatch.inOwnTime(orderBatch.of(parts.journal().waitingOrders())));
    ordersInHand = !orders.isEmpty();
    List<String> orderIds = orders.stream().map(order -> order.path("id").asText()).toList();
    boolean clockInDoubt = clockWatch.look(at, orders);
    if (parts.trouble().isPresent()) {
      LostJournalHold.hold(at, state.orders().hold()).ifPresent(orders::add);
    }
    watch(at);
    boolean doubted = hoseInDoubt && tick.bench().hose().volumeMl() > 0;
    List<JsonNode> forTheBench = new ArrayList<>(orders);
    alerts.putOff(at, forTheBench);
    Observation seen =
        ObservationBuilder.of(at, read, clockInDoubt, forTheBench, state, doubted, boardFault);
    Tick.Step step = tick.step(state, seen);
    Tick.Standing standing = step.tick().standing(step.state());
    List<JournalEvent> events = new ArrayList<>(alerts.untold(at));
    events.addAll(tickEvents.of(at, orders, step.brief()));
    tick.rootsSeen(state, step.state()).forEach(roots -> events.add(JournalEvent.of(at, roots)));
    events.addAll(decisions.untold(at, standing.decisions()));
    // On a bench that is only watched what is told is not given, and nobody intends to.
    boolean waters = parts.trouble().isEmpty() && !watchOnly();
    List<Advice.Pass> passes = waters ? step.brief().passes() : List.of();
    signs.doing(Beat.Doing.WRITING);
    List<Journal.Intent> intents =
        putDown(
            new TickEntry(
                at,
                ObservationLine.of(seen),
                step.state(),
                ObservationBuilder.senml(parts.bench().name(), seen),
                passes,
                events,
                orderIds));
    tick = step.tick();
    orderBatch.took(orderIds.size(), System.nanoTime() - begunNanos);
    signs.moved();
    signs.doing(Beat.Doing.WATERING);
    // Unless all of these run as they are counted, nobody knows what stands in the shared hose.
    hoseInDoubt = !step.passes().isEmpty();
    passesBegun = !intents.isEmpty();
    List<Dose> doses = pump.give(step.passes(), intents, () -> stopping);
    faults.gave(doses);
    signs.doing(Beat.Doing.TELLING);
    hoseInDoubt = doses.stream().anyMatch(dose -> !dose.outcome().equals("given"));
    dailyTrimming.afterTick(at, tick.text().orElseThrow().yaml(), state);
    tell(report(at, step, doses, standing, seen));
    requireMark();
  }

  private TickReport report(
      Instant at, Tick.Step step, List<Dose> doses, Tick.Standing standing, Observation seen) {
    return new TickReport(
        at,
        step,
        doses,
        standing.statuses(),
        tickEvents.bench(at, seen, tick.bench(), state),
        tick.setup(state));
  }

  /**
   * The tick is done and its water given: what fails in telling of it takes nothing of that back.
   */
  private void tell(TickReport report) {
    try {
      parts.listener().ticked(report);
    } catch (RuntimeException e) {
      log.error("What the tick of {} came to could not be told", report.at(), e);
    }
  }

  private void watch(Instant at) {
    store.look(at);
    inputs.look(at);
    names.look(at);
  }

  private List<Journal.Intent> putDown(TickEntry entry) throws JournalException {
    List<Journal.Intent> intents = parts.journal().commit(entry);
    // From here on this is the state, whatever fails: orders in it are told as done.
    state = entry.state();
    if (!entry.orderIds().isEmpty()) {
      // Only an order puts a cup on the bench or takes one off.
      parts.hardware().stand(state.wirings());
    }
    alerts.told();
    decisions.told();
    if (parts.trouble().isEmpty() && parts.journal().unmarked().isEmpty()) {
      store.worked();
    }
    return intents;
  }

  /**
   * Without a mark of what was written last nothing more is decided or given: if the journal were
   * cut short now, nobody would see it. That is told at once, since no tick may be written to tell
   * it.
   */
  private void requireMark() throws JournalException {
    if (parts.journal().markAgain()) {
      return;
    }
    Instant at = clock.now();
    store.failed(
        at,
        "The mark beside the journal cannot be written, so nothing is watered: look at the"
            + " controller's disk.");
    for (JournalEvent untold : alerts.untold(at)) {
      parts.journal().note(untold);
    }
    alerts.told();
    throw JournalException.unmarked(parts.journal().unmarked().orElseThrow());
  }
}
