package dev.cupwarden.core.state;

import dev.cupwarden.core.estimate.RootSignal;
import dev.cupwarden.core.plants.RootingClock;
import dev.cupwarden.core.season.CupSeason;
import dev.cupwarden.core.watering.UseLog;
import java.time.Instant;

/**
 * The cutting in a cup.
 *
 * @param stageSince when its stage was first known here; null before the first look
 * @param use what its cup lost lately
 * @param roots what that use says of its roots
 * @param rooting how far it has come towards roots; null where its plant is not known, before the
 *     first look, or in an older journal
 * @param season what is remembered for the season's advice
 */
public record CupPlant(
    Instant stageSince, UseLog use, RootSignal roots, RootingClock rooting, CupSeason season) {
  public static final CupPlant UNSEEN =
      new CupPlant(null, UseLog.EMPTY, RootSignal.NONE, null, CupSeason.NONE);

  /** What an older journal does not know is null in it, and nothing is known of it. */
  public CupPlant {
    season = season == null ? CupSeason.NONE : season;
  }

  public CupPlant ofStageSince(Instant since) {
    return new CupPlant(since, use, roots, rooting, season);
  }

  public CupPlant with(UseLog next) {
    return new CupPlant(stageSince, next, roots, rooting, season);
  }

  public CupPlant with(RootSignal next) {
    return new CupPlant(stageSince, use, next, rooting, season);
  }

  public CupPlant with(RootingClock next) {
    return new CupPlant(stageSince, use, roots, next, season);
  }

  public CupPlant with(CupSeason next) {
    return next.equals(season) ? this : new CupPlant(stageSince, use, roots, rooting, next);
  }

  /** A person looked at its roots. */
  public CupPlant lookedAt(Instant at) {
    return rooting == null ? this : with(rooting.looked(at));
  }

  /** Another plant, or struck on another day: how far it has come is reckoned anew. */
  public CupPlant struckAnew() {
    return new CupPlant(stageSince, use, roots, null, season);
  }

  /** In another vessel or mix: what it used before is no measure of what it uses there. */
  public CupPlant repotted() {
    return new CupPlant(stageSince, UNSEEN.use, UNSEEN.roots, rooting, CupSeason.NONE);
  }
}
