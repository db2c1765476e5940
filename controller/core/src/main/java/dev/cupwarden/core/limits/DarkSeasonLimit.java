package dev.cupwarden.core.limits;

import dev.cupwarden.core.setup.FeedingRules;
import java.time.MonthDay;

/** No feed in the dark season, where the bench says so. */
final class DarkSeasonLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    FeedingRules.Pause pause = pass.bench().feeding().pause().orElse(null);
    if (pause == null) {
      return Ruling.FREE;
    }
    MonthDay today = MonthDay.from(pass.bench().today());
    boolean from = !today.isBefore(pause.from());
    boolean until = !today.isAfter(pause.until());
    boolean overNewYear = pause.until().isBefore(pause.from());
    boolean within = overNewYear ? from || until : from && until;
    return within ? Ruling.veto(1.0, 0.0) : Ruling.FREE;
  }
}
