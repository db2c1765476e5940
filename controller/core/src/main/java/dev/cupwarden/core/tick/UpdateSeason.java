package dev.cupwarden.core.tick;

import dev.cupwarden.core.season.CupSeason;
import dev.cupwarden.core.season.Outings;
import dev.cupwarden.core.season.SeasonCard;
import java.time.Duration;

/** Remembers of light and of each cup what the season's advice goes by. */
final class UpdateSeason {
  private static final Duration DRIED_OUT =
      Duration.ofMinutes(Math.round(60.0 * SeasonCard.DRIED_OUT_H));

  private UpdateSeason() {}

  static void update(BenchDraft draft) {
    if (draft.seen.lightUmolPerM2S().isPresent()) {
      double umolPerM2S = draft.seen.lightUmolPerM2S().getAsDouble();
      draft.air = draft.air.with(draft.air.lightDay().plus(draft.at, draft.today(), umolPerM2S));
    }
    draft.air = draft.air.with(draft.air.foretold().from(draft.today()));
    boolean hard = draft.weatherAgainst().isPresent();
    for (CupDraft cup : draft.cups.values()) {
      cup.plant = cup.plant.with(remembered(draft, cup, cup.plant.season(), hard));
    }
  }

  /**
   * @param hard whether the weather outdoors is too hard for leaves that grew indoors
   */
  private static CupSeason remembered(BenchDraft draft, CupDraft cup, CupSeason was, boolean hard) {
    Outings lasted = was.outings();
    lasted = hard ? lasted.inHardWeather(draft.before.at(), draft.at) : lasted;
    CupSeason next = was.with(outings(draft, cup, lasted));
    next = next.warm(draft.at, draft.rootsC(cup) - draft.airC());
    if (!cup.now.trusted() || cup.presence.away()) {
      return next;
    }
    double depletion = cup.depletion();
    boolean driedOut =
        cup.watering
            .dryClock()
            .past(draft.at)
            .filter(past -> past.compareTo(DRIED_OUT) >= 0)
            .isPresent();
    next = next.wet(draft.at, depletion);
    return driedOut ? next.driedOut(draft.at, depletion) : next;
  }

  private static Outings outings(BenchDraft draft, CupDraft cup, Outings was) {
    if (cup.presence.away()) {
      return was.gone(cup.presence.awaySince());
    }
    return cup.now.lifted() ? was.gone(draft.at) : was.there(draft.at);
  }
}
