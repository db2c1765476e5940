package dev.cupwarden.core.state;

import dev.cupwarden.core.climate.LightDay;
import dev.cupwarden.core.climate.MouldHours;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.season.Foretold;
import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.util.OptionalDouble;

/**
 * The room as last read; null where never supplied. A value stays good after its sensor fell
 * silent: frost that was there is rather assumed than forgotten, and a person is told.
 *
 * @param warmestAirC the warmest air since the root thermometer last showed another number; null
 *     where nothing was supplied, or in an older journal
 * @param mould for how long it has favoured mould
 * @param lightDay how much light there was
 * @param outdoorC where cups are carried out to
 * @param foretold what a person told of the days there
 */
public record AirState(
    Measured airC,
    Measured rhPct,
    Measured rootC,
    Measured light,
    Measured warmestAirC,
    MouldHours mould,
    LightDay lightDay,
    Measured outdoorC,
    Foretold foretold) {
  public static final AirState UNKNOWN =
      new AirState(
          null, null, null, null, null, MouldHours.NONE, LightDay.NONE, null, Foretold.NONE);

  /** Over a longer gap nobody knows how humid it was: our choice. */
  private static final Duration LONGEST_GAP = Duration.ofHours(2);

  /** Weather that was read longer ago is old weather, and says nothing: our choice. */
  private static final Duration WEATHER_GOOD_FOR = Duration.ofHours(1);

  /** What an older journal does not know is null in it: nothing is known of that. */
  public AirState {
    mould = mould == null ? MouldHours.NONE : mould;
    lightDay = lightDay == null ? LightDay.NONE : lightDay;
    foretold = foretold == null ? Foretold.NONE : foretold;
  }

  /** Longer without a word, and a sensor counts as dead. */
  public static final Duration DEAD_AFTER = Duration.ofHours(6);

  /**
   * Roots that show the same number to the last digit while the air falls so far are a thermometer
   * that stands still: even a mat lets its cups cool by some tenths. The grower's rule.
   */
  private static final double STILL_WHILE_AIR_FALLS_K = 3.0;

  /** A value with the time it was read. */
  public record Measured(double value, Instant at) {}

  /**
   * The same with what is measured by the sensors that there are, of the air, of the roots and
   * outdoors.
   */
  public AirState only(boolean ofAir, boolean ofRoots, boolean outdoors) {
    return new AirState(
        ofAir ? airC : null,
        ofAir ? rhPct : null,
        ofRoots ? rootC : null,
        light,
        ofAir && ofRoots ? warmestAirC : null,
        ofAir ? mould : MouldHours.NONE,
        lightDay,
        outdoors ? outdoorC : null,
        foretold);
  }

  /** The same with so much light. */
  public AirState with(LightDay next) {
    return new AirState(airC, rhPct, rootC, light, warmestAirC, mould, next, outdoorC, foretold);
  }

  /** The same with that foretold. */
  public AirState with(Foretold next) {
    return next.equals(foretold)
        ? this
        : new AirState(airC, rhPct, rootC, light, warmestAirC, mould, lightDay, outdoorC, next);
  }

  public AirState plus(Observation seen) {
    Measured air = newer(airC, seen.airC(), seen.at());
    Measured roots = newer(rootC, seen.rootC(), seen.at());
    boolean moved = rootC == null || roots.value() != rootC.value();
    boolean warmer = air != null && (warmestAirC == null || air.value() > warmestAirC.value());
    Measured humidity = newer(rhPct, seen.rhPct(), seen.at());
    return new AirState(
        air,
        humidity,
        roots,
        newer(light, seen.lightUmolPerM2S(), seen.at()),
        moved || warmer ? air : warmestAirC,
        mould(seen, air, humidity),
        lightDay,
        newer(outdoorC, seen.outdoorC(), seen.at()),
        foretold);
  }

  /** Counted on where both sensors speak; a sensor may show a little more than saturated air. */
  private MouldHours mould(Observation seen, Measured air, Measured humidity) {
    boolean read = seen.airC().isPresent() || seen.rhPct().isPresent();
    if (!read || air == null || humidity == null) {
      return mould;
    }
    double airC = Math.max(-60.0, Math.min(100.0, air.value()));
    double pct = Math.max(0.0, Math.min(100.0, humidity.value()));
    return mould.after(seen.at(), airC, pct, LONGEST_GAP);
  }

  /**
   * What counts for roots that the thermometer speaks for, °C: what it shows, or the air where it
   * is silent or stands still; NaN where nothing was ever supplied.
   */
  public double rootsC(Instant at) {
    boolean silent = silentH(rootC, at) > DEAD_AFTER.toMinutes() / 60.0;
    boolean byAir = rootC == null || (airC != null && (silent || rootsStandStill()));
    return valueOf(byAir ? airC : rootC);
  }

  /** What it is outdoors now, °C; none where no thermometer was heard of late. */
  public OptionalDouble outdoorNowC(Instant at) {
    return outdoorC == null || outdoorC.at().plus(WEATHER_GOOD_FOR).isBefore(at)
        ? OptionalDouble.empty()
        : OptionalDouble.of(outdoorC.value());
  }

  /** Whether the root thermometer stood still while the air fell. */
  public boolean rootsStandStill() {
    return rootC != null
        && airC != null
        && warmestAirC != null
        && warmestAirC.value() - airC.value() >= STILL_WHILE_AIR_FALLS_K;
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
