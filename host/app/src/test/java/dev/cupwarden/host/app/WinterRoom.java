package dev.cupwarden.host.app;

import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.physics.RoomAir;
import java.time.Duration;
import java.time.Instant;

/**
 * The demo's heated room, whose heating fails for a week of January, with one night of frost. The
 * room needs half a day to cool and to warm up again.
 */
final class WinterRoom {
  static final Instant COLD_FROM = Instant.parse("2027-01-11T06:00:00Z");
  static final Instant COLD_TO = Instant.parse("2027-01-18T06:00:00Z");
  static final Instant FROST_FROM = Instant.parse("2027-01-14T20:00:00Z");
  static final Instant FROST_TO = Instant.parse("2027-01-15T11:00:00Z");

  private static final double COLD_AIR_C = 8.5;
  private static final double COLD_ROOT_C = 8.0;
  private static final double FROST_AIR_C = 0.5;
  private static final double FROST_ROOT_C = 2.0;
  private static final double COLD_RH_PCT = 70;

  private WinterRoom() {}

  static RoomAir at(Instant at) {
    RoomAir heated = SimulatedBench.steadyRoom(at);
    double cold = part(COLD_FROM, COLD_TO, Duration.ofHours(12), at);
    double frost = part(FROST_FROM, FROST_TO, Duration.ofHours(3), at);
    double airC = towards(towards(heated.airC(), COLD_AIR_C, cold), FROST_AIR_C, frost);
    double rootC = towards(towards(heated.rootC(), COLD_ROOT_C, cold), FROST_ROOT_C, frost);
    double rhPct = towards(heated.rhPct(), COLD_RH_PCT, cold);
    return RoomAir.of(airC, rhPct, rootC, heated.lightUmolPerM2S());
  }

  private static double towards(double from, double to, double part) {
    return from + (to - from) * part;
  }

  /** How far a spell is there: rises from its beginning and falls from its end on. */
  private static double part(Instant from, Instant to, Duration lag, Instant at) {
    double risen = Duration.between(from, at).toSeconds() / (double) lag.toSeconds();
    double fallen = Duration.between(to, at).toSeconds() / (double) lag.toSeconds();
    return clamp(risen) * (1 - clamp(fallen));
  }

  private static double clamp(double part) {
    return Math.max(0, Math.min(1, part));
  }
}
