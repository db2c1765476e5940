package dev.cupwarden.core.state;

import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.PumpTrial;
import dev.cupwarden.core.dosing.PumpWatch;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What the pump did for all cups, and what stops it.
 *
 * @param latch null where there is none
 * @param shortCups different cups running whose passes did not arrive
 * @param leak water where none belongs, at the last observation
 * @param watch over a pump that was stopped for every cup
 * @param lastPassesMl all that was put out at {@code lastPassesAt}
 * @param lastPassesAt null if nothing was
 * @param trayMl reckoned to have run through since a person last cleared the bench
 */
public record PumpState(
    Latch latch,
    List<String> shortCups,
    boolean leak,
    PumpWatch watch,
    double lastPassesMl,
    Instant lastPassesAt,
    double trayMl) {
  public static final PumpState NONE =
      new PumpState(null, List.of(), false, PumpWatch.NONE, 0.0, null, 0.0);

  /** In an older journal there is no watch, and a leak is a latch. */
  public PumpState {
    watch = PumpWatch.of(watch, latch);
    latch = PumpWatch.latch(latch);
  }

  public PumpState latched(Latch next) {
    return new PumpState(next, shortCups, leak, watch, lastPassesMl, lastPassesAt, trayMl);
  }

  public PumpState with(LeakWatch next) {
    return with(new PumpWatch(next, watch.trial(), watch.boardFault()));
  }

  public PumpState with(PumpTrial next) {
    return with(new PumpWatch(watch.leak(), next, watch.boardFault()));
  }

  /**
   * At a tick's beginning.
   *
   * @param wet whether there is water where none belongs
   * @param fault whether the board could not do as it was told
   */
  public PumpState seen(boolean wet, boolean fault) {
    PumpWatch next = new PumpWatch(watch.leak(), watch.trial(), fault);
    return new PumpState(latch, shortCups, wet, next, lastPassesMl, lastPassesAt, trayMl);
  }

  private PumpState with(PumpWatch next) {
    return new PumpState(latch, shortCups, leak, next, lastPassesMl, lastPassesAt, trayMl);
  }

  /** Another cup whose pass did not arrive. */
  public PumpState cameShort(String cup) {
    if (shortCups.contains(cup)) {
      return this;
    }
    List<String> running = new ArrayList<>(shortCups);
    running.add(cup);
    return with(List.copyOf(running));
  }

  /** A pass arrived: the cups whose passes did not run no more. */
  public PumpState arrived() {
    return shortCups.isEmpty() ? this : with(List.of());
  }

  private PumpState with(List<String> cups) {
    return new PumpState(latch, cups, leak, watch, lastPassesMl, lastPassesAt, trayMl);
  }

  /** So much ran through a cup. */
  public PumpState ranThrough(double ml) {
    return new PumpState(latch, shortCups, leak, watch, lastPassesMl, lastPassesAt, trayMl + ml);
  }

  /** After a tick's passes. */
  public PumpState gave(double ml, Instant at) {
    return new PumpState(latch, shortCups, leak, watch, ml, at, trayMl);
  }

  /** A person has looked, emptied the tray, and found the pump in order. */
  public PumpState cleared() {
    PumpWatch next = new PumpWatch(LeakWatch.NONE, PumpTrial.NONE, watch.boardFault());
    return new PumpState(null, List.of(), leak, next, lastPassesMl, lastPassesAt, 0.0);
  }
}
