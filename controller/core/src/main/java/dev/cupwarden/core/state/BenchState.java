package dev.cupwarden.core.state;

import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.setup.Cup;
import java.time.Instant;
import java.util.SortedMap;

/**
 * The whole state of a bench as one immutable value; it survives a restart in the journal.
 *
 * @param at of the last observation; null before the first
 * @param clockInDoubt whether {@code at} may be far from the true time
 * @param hose the plumbing that all cups share
 */
public record BenchState(
    Instant at,
    boolean clockInDoubt,
    SortedMap<String, CupState> cups,
    AirState air,
    SortedMap<String, TankState> tanks,
    PumpState pump,
    HoseState hose,
    CupsCompared compared,
    BenchOrders orders,
    SortedMap<String, OpenAlert> alerts) {

  /** In an older journal there is no hose, and nothing is known of it. */
  public BenchState {
    hose = hose == null ? HoseState.NONE : hose;
  }

  /** The same with other cups, air and tanks: the grower has edited the bench. */
  public BenchState over(
      SortedMap<String, CupState> otherCups,
      AirState otherAir,
      SortedMap<String, TankState> otherTanks) {
    return new BenchState(
        at, clockInDoubt, otherCups, otherAir, otherTanks, pump, hose, compared, orders, alerts);
  }

  /** Where each cup that is on the bench hangs on the board, by name. */
  public SortedMap<String, Cup.Wiring> wirings() {
    return Cup.wirings(cups.values().stream().map(CupState::setup));
  }

  public BenchState with(PumpState other) {
    return new BenchState(
        at, clockInDoubt, cups, air, tanks, other, hose, compared, orders, alerts);
  }

  public BenchState with(BenchOrders other) {
    return new BenchState(at, clockInDoubt, cups, air, tanks, pump, hose, compared, other, alerts);
  }

  public BenchState with(HoseState other) {
    return new BenchState(
        at, clockInDoubt, cups, air, tanks, pump, other, compared, orders, alerts);
  }
}
