package dev.cupwarden.core.state;

import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.PumpWatch;
import dev.cupwarden.core.estimate.SwapDetector;
import dev.cupwarden.core.limits.Hold;
import java.time.Instant;
import java.util.List;
import java.util.SortedMap;

/**
 * The whole state of a bench as one immutable value; it survives a restart in the journal.
 *
 * @param at of the last observation; null before the first
 * @param leak water where none belongs, at the last observation
 * @param clockInDoubt whether {@code at} may be far from the true time
 * @param hold the bench's; null where there is none
 * @param pumpLatch null where there is none
 * @param shortCups different cups running whose passes did not arrive
 * @param rootsAt when use was last compared; null before
 * @param trayMl reckoned to have run through since a person last cleared the bench
 * @param steps of weight that may turn out to be half of a swap
 * @param lastPassesMl all that was put out at {@code lastPassesAt}
 * @param lastPassesAt null if nothing was
 * @param orderIds of orders already taken or refused, oldest first
 * @param watch over a pump that was stopped for every cup; null in an older journal
 * @param done what people may still take back; null in older journals: nothing
 * @param hose the plumbing that all cups share; null in a state of a program that knew none
 */
public record BenchState(
    Instant at,
    SortedMap<String, CupState> cups,
    AirState air,
    SortedMap<String, TankState> tanks,
    boolean leak,
    boolean clockInDoubt,
    Hold hold,
    Latch pumpLatch,
    List<String> shortCups,
    Instant rootsAt,
    double trayMl,
    List<SwapDetector.Step> steps,
    double lastPassesMl,
    Instant lastPassesAt,
    SortedMap<String, OpenAlert> alerts,
    List<String> orderIds,
    PumpWatch watch,
    DoneActs done,
    HoseState hose) {

  /** The same with other cups, air and tanks: the grower has edited the bench. */
  public BenchState over(
      SortedMap<String, CupState> otherCups,
      AirState otherAir,
      SortedMap<String, TankState> otherTanks) {
    return new BenchState(
        at,
        otherCups,
        otherAir,
        otherTanks,
        leak,
        clockInDoubt,
        hold,
        pumpLatch,
        shortCups,
        rootsAt,
        trayMl,
        steps,
        lastPassesMl,
        lastPassesAt,
        alerts,
        orderIds,
        watch,
        done,
        hose);
  }
}
