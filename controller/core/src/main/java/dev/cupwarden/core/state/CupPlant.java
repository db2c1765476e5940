package dev.cupwarden.core.state;

import dev.cupwarden.core.estimate.RootSignal;
import dev.cupwarden.core.watering.UseLog;
import java.time.Instant;

/**
 * The cutting in a cup.
 *
 * @param stageSince when its stage was first known here; null before the first look
 * @param use what its cup lost lately
 * @param roots what that use says of its roots
 */
public record CupPlant(Instant stageSince, UseLog use, RootSignal roots) {
  public static final CupPlant UNSEEN = new CupPlant(null, UseLog.EMPTY, RootSignal.NONE);

  public CupPlant ofStageSince(Instant since) {
    return new CupPlant(since, use, roots);
  }

  public CupPlant with(UseLog next) {
    return new CupPlant(stageSince, next, roots);
  }

  public CupPlant with(RootSignal next) {
    return new CupPlant(stageSince, use, next);
  }

  /** In another vessel or mix: what it used before is no measure of what it uses there. */
  public CupPlant repotted() {
    return UNSEEN.ofStageSince(stageSince);
  }
}
