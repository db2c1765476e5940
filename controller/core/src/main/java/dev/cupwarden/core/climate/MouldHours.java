package dev.cupwarden.core.climate;

import dev.cupwarden.core.argument.Argument;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * How long the air has favoured grey mould (Botrytis) without a break: humid and mild, as under a
 * dome. The figures (85 % and more for 8 h, between 12 and 24 °C) follow extension texts on films
 * of water of 8 to 12 h at 55 to 75 °F; the rule itself is this project's choice.
 *
 * @param since first of an unbroken row of favourable readings, none when the last was not
 * @param last time of the newest reading
 */
public record MouldHours(Optional<Instant> since, Optional<Instant> last) {
  /** Before the first reading. */
  public static final MouldHours NONE = new MouldHours(Optional.empty(), Optional.empty());

  /** Humidity from which leaves stay wet, %. */
  public static final double HUMID_PCT = 85;

  /** Least temperature that favours the mould, °C. */
  public static final double LEAST_C = 12;

  /** Greatest temperature that favours the mould, °C. */
  public static final double GREATEST_C = 24;

  /** Unbroken time from which a person is told. */
  public static final Duration ALARM_AFTER = Duration.ofHours(8);

  /**
   * The count after one more reading.
   *
   * @param at when, not before the last reading
   * @param tempC air temperature, -60 to 100 °C
   * @param rhPct relative humidity, 0 to 100 %
   * @param timeout a longer gap between readings starts the count anew
   * @throws IllegalArgumentException outside of those ranges
   */
  public MouldHours after(Instant at, double tempC, double rhPct, Duration timeout) {
    Argument.within("tempC", tempC, -60, 100);
    Argument.within("rhPct", rhPct, 0, 100);
    if (last.isPresent() && at.isBefore(last.get())) {
      throw new IllegalArgumentException("at must not be before " + last.get() + ", not " + at);
    }
    boolean favours = rhPct >= HUMID_PCT && tempC >= LEAST_C && tempC <= GREATEST_C;
    if (!favours) {
      return new MouldHours(Optional.empty(), Optional.of(at));
    }
    boolean gap =
        last.map(before -> Duration.between(before, at).compareTo(timeout) > 0).orElse(true);
    Instant from = gap ? at : since.orElse(at);
    return new MouldHours(Optional.of(from), Optional.of(at));
  }

  /** Unbroken favourable time up to the newest reading. */
  public Duration lasted() {
    return since.isEmpty() ? Duration.ZERO : Duration.between(since.get(), last.orElseThrow());
  }

  /** Whether a person must be told. */
  public boolean alarm() {
    return lasted().compareTo(ALARM_AFTER) >= 0;
  }
}
