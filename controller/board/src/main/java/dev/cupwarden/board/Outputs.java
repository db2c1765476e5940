package dev.cupwarden.board;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.atomic.AtomicReference;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The pump and the valves as one set that keeps itself safe: all off at start, the pump only on
 * over an open valve, and everything off when the dosing loop falls silent or the pump runs too
 * long.
 *
 * <p>Switching off takes no lock: the guard must get through when the dosing thread hangs in the
 * midst of a call. So a trip is marked first and every switching on looks at the mark after it has
 * switched.
 */
final class Outputs {
  private static final Logger LOG = LoggerFactory.getLogger(Outputs.class);
  private static final int OFF_ATTEMPTS = 3;

  /**
   * What there is to switch.
   *
   * @param tankValves names of those valves that lead from a tank
   * @param heartbeat changes its level at each beat; every other change retriggers the pump-run
   *     timer
   */
  record Lines(
      OutputLine pump,
      Map<String, OutputLine> valves,
      Set<String> tankValves,
      Optional<OutputLine> heartbeat) {}

  private final OutputLine pump;
  private final SortedMap<String, OutputLine> valves;
  private final Set<String> tankValves;
  private final Optional<OutputLine> heartbeat;
  private final List<String> offOrder;
  private final Pace pace;
  private final DeadMan deadMan;
  private final Duration longestRun;
  private final ConcurrentSkipListSet<String> open = new ConcurrentSkipListSet<>();
  private final AtomicReference<String> tripped = new AtomicReference<>();
  private final AtomicReference<String> stuckOn = new AtomicReference<>();
  private volatile boolean pumpStuckOn;
  private volatile Runnable beatHeard = () -> {};
  private volatile boolean heartbeatHigh;
  private volatile boolean pumpOn;
  private volatile long pumpOnNanos;
  private volatile long pumpRanNanos;
  private Pace.Repeating guard;

  /**
   * Takes the lines and switches all of them off.
   *
   * @param longestRun the pump is off at the latest after this and one look of the guard
   */
  Outputs(Lines lines, Pace pace, Duration longestRun) {
    this.pump = lines.pump();
    this.valves = new TreeMap<>(lines.valves());
    this.tankValves = Set.copyOf(lines.tankValves());
    this.heartbeat = lines.heartbeat();
    this.offOrder =
        valves.entrySet().stream()
            .sorted(Comparator.comparing(valve -> valve.getValue().overBus()))
            .map(Map.Entry::getKey)
            .toList();
    this.pace = pace;
    this.longestRun = longestRun;
    this.deadMan = new DeadMan(pace.nanos());
    allOff();
  }

  /** The dosing loop is alive; the pump-run timer beside the processor hears it too. */
  void beat() {
    deadMan.beat(pace.nanos());
    beatHeard.run();
    heartbeat.ifPresent(this::toggle);
  }

  void onBeat(Runnable heard) {
    beatHeard = heard;
  }

  private void toggle(OutputLine line) {
    heartbeatHigh = !heartbeatHigh;
    try {
      if (heartbeatHigh) {
        line.on();
      } else {
        line.off();
      }
    } catch (ChipException e) {
      // Without its heartbeat the timer stops the pump, which is what it is for.
      LOG.warn("The heartbeat does not switch: {}", e.getMessage());
    }
  }

  /** Why everything was switched off from outside, since {@link #arm}. */
  Optional<String> tripped() {
    return Optional.ofNullable(tripped.get());
  }

  /** An output that could not be switched off, until it could. */
  Optional<String> stuckOn() {
    return Optional.ofNullable(stuckOn.get());
  }

  /** Whether the pump is among them. */
  boolean pumpStuckOn() {
    return pumpStuckOn;
  }

  /** Begins a pass: the guard looks from now on. */
  synchronized void arm() {
    tripped.set(null);
    beat();
    // One change up and one down: the timer hears one of them only, and the pump needs it to run.
    heartbeat.ifPresent(this::toggle);
    if (guard == null) {
      guard = pace.every(DeadMan.LOOK_EVERY, this::look);
    }
  }

  /** Ends a pass: all off, and the guard rests. */
  synchronized void disarm() {
    allOff();
    if (guard != null) {
      guard.close();
      guard = null;
    }
  }

  /** The guard's look, in its own thread. */
  void look() {
    long now = pace.nanos();
    boolean anyOn = pumpOn || !open.isEmpty();
    if (anyOn && deadMan.overdue(now)) {
      trip("The dosing loop was silent for too long.");
    } else if (pumpOn && now - pumpOnNanos > longestRun.toNanos()) {
      trip("The pump ran longer than the board allows at one go.");
    }
  }

  /** Everything off, and nothing on again before the next {@link #arm}. */
  void trip(String reason) {
    tripped.compareAndSet(null, reason);
    LOG.warn("All outputs off: {}", reason);
    allOff();
  }

  /** Opens a valve: at most one of the cups' and one of the tanks' at a time. */
  void open(String valve) throws ChipException {
    refuseWhenTripped();
    for (String other : open) {
      if (tankValves.contains(other) == tankValves.contains(valve)) {
        throw new ChipException(
            "Valve %s is not opened while valve %s is open.".formatted(valve, other));
      }
    }
    open.add(valve);
    valves.get(valve).on();
    undoWhenTripped();
  }

  /** Shuts a valve. */
  void shut(String valve) throws ChipException {
    valves.get(valve).off();
    open.remove(valve);
  }

  /** The pump on; only over an open valve. */
  void pumpOn() throws ChipException {
    pumpRanNanos = 0;
    refuseWhenTripped();
    if (open.isEmpty()) {
      throw new ChipException("The pump is not switched on over shut valves.");
    }
    pumpOnNanos = pace.nanos();
    pumpOn = true;
    pump.on();
    undoWhenTripped();
  }

  /** The pump off. */
  void pumpOff() throws ChipException {
    pump.off();
    markPumpOff();
  }

  private void markPumpOff() {
    if (pumpOn) {
      pumpRanNanos = pace.nanos() - pumpOnNanos;
      pumpOn = false;
    }
  }

  /**
   * For how long the pump ran when {@link #pumpOn} was last called; up to now when it still does.
   */
  Duration lastRun() {
    return Duration.ofNanos(pumpOn ? pace.nanos() - pumpOnNanos : pumpRanNanos);
  }

  private void refuseWhenTripped() throws ChipException {
    if (tripped.get() != null) {
      throw new ChipException(tripped.get());
    }
  }

  private void undoWhenTripped() throws ChipException {
    if (tripped.get() != null) {
      allOff();
      throw new ChipException(tripped.get());
    }
  }

  /**
   * The pump off first, then every valve, those on a bus that may hang last; each is tried even
   * when another fails. What cannot be switched off is {@link #stuckOn} from then on.
   */
  void allOff() {
    List<String> failed = new ArrayList<>();
    boolean pumpOff = switchOff(pump, failed);
    if (pumpOff) {
      markPumpOff();
    }
    for (String name : offOrder) {
      if (switchOff(valves.get(name), failed)) {
        open.remove(name);
      }
    }
    pumpStuckOn = !pumpOff;
    String sentence =
        pumpOff
            ? "These do not answer and may be open: %s. The pump is off: look at their wires, their"
                + " expander's supply and the bus."
            : "Could not be switched off and may be on: %s. Take the supply from the pump.";
    stuckOn.set(failed.isEmpty() ? null : sentence.formatted(String.join(", ", failed)));
  }

  private static boolean switchOff(OutputLine line, List<String> failed) {
    for (int attempt = 0; attempt < OFF_ATTEMPTS; attempt++) {
      try {
        line.off();
        return true;
      } catch (ChipException | RuntimeException e) {
        // Whatever it is, an interrupted wait for the bus too: the other lines must still be tried.
        LOG.error("{} does not switch off: {}", line.name(), e.toString());
      }
    }
    failed.add(line.name());
    return false;
  }
}
