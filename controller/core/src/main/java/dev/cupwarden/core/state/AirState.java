package dev.cupwarden.core.state;

import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.util.OptionalDouble;

/**
 * The room as last read; null where never supplied. A value stays good after its sensor fell
 * silent: frost that was there is rather assumed than forgotten, and a person is told.
 */
public record AirState(Measured airC, Measured rhPct, Measured rootC, Measured light) {
  public static final AirState UNKNOWN = new AirState(null, null, null, null);

  /** Longer without a word, and a sensor counts as dead. */
  public static final Duration DEAD_AFTER = Duration.ofHours(6);

  /** A value with the time it was read. */
  public record Measured(double value, Instant at) {}

  /** The same with what is measured by the sensors that there are, of the air and of the roots. */
  public AirState only(boolean ofAir, boolean ofRoots) {
    return new AirState(ofAir ? airC : null, ofAir ? rhPct : null, ofRoots ? rootC : null, light);
  }

  public AirState plus(Observation seen) {
    return new AirState(
        newer(airC, seen.airC(), seen.at()),
        newer(rhPct, seen.rhPct(), seen.at()),
        newer(rootC, seen.rootC(), seen.at()),
        newer(light, seen.lightUmolPerM2S(), seen.at()));
  }

  private static Measured newer(Measured known, OptionalDouble read, Instant at) {
    return read.isPresent() ? new Measured(read.getAsDouble(), at) : known;
  }

  /** NaN where never supplied. */
  public static double valueOf(Measured measured) {
    return measured == null ? Double.NaN : measured.value();
  }

  /** Hours since a sensor that once spoke was last heard; 0 for one that never did. */
  public static double silentH(Measured measured, Instant at) {
    return measured == null ? 0.0 : Elapsed.hours(measured.at(), at);
  }
}
