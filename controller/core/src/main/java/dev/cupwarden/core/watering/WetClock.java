package dev.cupwarden.core.watering;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.Objects;

/**
 * How long the roots of a cup have been short of air. Two ways count: less air than roots need,
 * past the wet line; and little more than that for longer than the cup needs to dry out of it. A
 * cup that stands still with air enough counts as neither, however long it stands.
 *
 * @param wetSince past its wet line since then; null if it is not
 * @param littleSince with little air since then; null while there is enough, or where that says
 *     nothing
 * @param needH hours that it needs at its own rate to dry out of that, from where it was wettest
 * @param wettest least depletion since then
 */
@JsonIgnoreProperties({"sodden_since", "sodden_at"})
public record WetClock(Instant wetSince, Instant littleSince, double needH, double wettest) {
  public static final WetClock DRYING = new WetClock(null, null, 0.0, 0.0);

  /** From here on a person is warned: our choice, half of {@link #HOLD_AFTER_H}. */
  public static final double WARN_AFTER_H = 24.0;

  /**
   * From here on nothing more is given: our choice. Rhododendrons of a cultivar that withstands
   * root rot had severe rot when their roots were flooded for 48 h before they met it (Blaker and
   * MacDonald 1981, Phytopathology 71:831, abstract); shorter floods it does not tell of.
   */
  public static final double HOLD_AFTER_H = 48.0;

  /** A cup must come this far past a line, or be so much wetter, before that counts: no flicker. */
  private static final double BACK_BY = 0.01;

  /** A cup that hardly dries is looked at after a month all the same: our choice. */
  private static final double MOST_NEED_H = 30.0 * 24.0;

  /** After a trusted look at the cup, by its wet line. */
  public WetClock look(Instant at, double depletion, CupLines lines) {
    Instant wet = wetSince;
    if (depletion < lines.wet()) {
      wet = wet == null ? at : wet;
    } else if (wet != null && depletion >= lines.wet() + BACK_BY) {
      wet = null;
    }
    return Objects.equals(wet, wetSince) ? this : new WetClock(wet, littleSince, needH, wettest);
  }

  /**
   * After such a look, by its air.
   *
   * <p>The rate of when it was wettest counts: one that falls meanwhile is what is told of.
   *
   * @param line depletion from which on there is air enough
   * @param dryingPerH by how much its depletion usually grows in an hour
   */
  public WetClock lookAtAir(Instant at, double depletion, double line, double dryingPerH) {
    boolean little = littleSince != null;
    if (depletion >= line + (little ? BACK_BY : 0.0)) {
      return withAir();
    }
    if (little && depletion >= wettest - BACK_BY) {
      return this;
    }
    double drying = Math.max(line - depletion, BACK_BY) / dryingPerH;
    double need = dryingPerH > 0.0 ? Math.min(MOST_NEED_H, drying) : MOST_NEED_H;
    return new WetClock(wetSince, little ? littleSince : at, Math.max(needH, need), depletion);
  }

  /** With air enough, or where nothing is known of it. */
  public WetClock withAir() {
    return littleSince == null ? this : new WetClock(wetSince, null, 0.0, 0.0);
  }

  /** Hours of the longer of the two at that time. */
  public double hours(Instant at) {
    return Math.max(pastLineH(at), hoursSince(littleSince, at) - needH);
  }

  /** Hours past its wet line at that time. */
  public double pastLineH(Instant at) {
    return hoursSince(wetSince, at);
  }

  private static double hoursSince(Instant since, Instant at) {
    return since == null ? 0.0 : Elapsed.hours(since, at);
  }
}
