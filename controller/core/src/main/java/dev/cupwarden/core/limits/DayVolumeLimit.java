package dev.cupwarden.core.limits;

import dev.cupwarden.core.dosing.Given;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/**
 * What a cup may take in 24 hours, counted as ordered: the room it had at the day's first pass and
 * a fifth more, and no more than 1.2 x what it lost in three days.
 */
final class DayVolumeLimit implements Limit {
  private static final double ROOM_PART = 1.2;
  private static final double USE_PART = 1.2;

  @Override
  public String code() {
    return "day-volume";
  }

  @Override
  public Ruling rule(Case pass) {
    Case.CupFacts cup = pass.cup();
    List<Given> given = cup.given();
    Instant dayAgo = pass.at().minus(Duration.ofHours(24));
    double roomMl = Double.NaN;
    double givenMl = 0.0;
    for (int i = given.size() - 1; i >= 0 && given.get(i).at().isAfter(dayAgo); i--) {
      roomMl = given.get(i).roomMl();
      givenMl += given.get(i).ml();
    }
    double mostMl = Double.isNaN(roomMl) ? Double.POSITIVE_INFINITY : ROOM_PART * roomMl;
    if (cup.use().known()) {
      mostMl = Math.min(mostMl, USE_PART * cup.use().lostIn3DaysG());
    }
    return Double.isInfinite(mostMl)
        ? Ruling.FREE
        : Ruling.cap(mostMl - givenMl, code(), givenMl, mostMl, "mL");
  }
}
