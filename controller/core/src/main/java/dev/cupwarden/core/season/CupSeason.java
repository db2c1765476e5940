package dev.cupwarden.core.season;

import java.time.Instant;
import java.util.Objects;

/**
 * What is remembered of a cup for the season's advice.
 *
 * @param shown the card that it shows; null for none
 * @param topWetSince since when its top has been wet; null while it is not
 * @param heatedSince since when its roots have been warmer than the air; null while they are not
 * @param driedOutAt when it was last past its dry line for long; null if never
 * @param driedOutTo how far it dried then, as a depletion; 0 if never
 */
public record CupSeason(
    SeasonCard shown,
    Instant topWetSince,
    Instant heatedSince,
    Instant driedOutAt,
    double driedOutTo,
    Outings outings) {
  public static final CupSeason NONE = new CupSeason(null, null, null, null, 0.0, Outings.NONE);

  /** The same with that card to show; null for none. */
  public CupSeason showing(SeasonCard card) {
    return card == shown
        ? this
        : new CupSeason(card, topWetSince, heatedSince, driedOutAt, driedOutTo, outings);
  }

  /** After a look at how wet it is. */
  public CupSeason wet(Instant at, double depletion) {
    Instant since =
        depletion >= SeasonCard.TOP_WET_BELOW ? null : topWetSince == null ? at : topWetSince;
    return Objects.equals(since, topWetSince)
        ? this
        : new CupSeason(shown, since, heatedSince, driedOutAt, driedOutTo, outings);
  }

  /**
   * After a look at its warmth.
   *
   * @param overAirK by how much the roots are warmer than the air; NaN, where nobody tells, changes
   *     nothing
   */
  public CupSeason warm(Instant at, double overAirK) {
    Instant since =
        overAirK < SeasonCard.UNHEATED_K
            ? null
            : heatedSince == null && overAirK >= SeasonCard.HEATED_K ? at : heatedSince;
    return Objects.equals(since, heatedSince)
        ? this
        : new CupSeason(shown, topWetSince, since, driedOutAt, driedOutTo, outings);
  }

  /** It is past its dry line, and has been for long. */
  public CupSeason driedOut(Instant at, double depletion) {
    boolean sameSpell =
        driedOutAt != null && driedOutAt.plusSeconds(86_400).isAfter(at) && depletion < driedOutTo;
    return new CupSeason(
        shown, topWetSince, heatedSince, at, sameSpell ? driedOutTo : depletion, outings);
  }

  public CupSeason with(Outings next) {
    return next.equals(outings)
        ? this
        : new CupSeason(shown, topWetSince, heatedSince, driedOutAt, driedOutTo, next);
  }
}
