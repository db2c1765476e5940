package dev.cupwarden.core.watering;

import dev.cupwarden.core.climate.Daylight;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.Window;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;

/** When the watering window is open, day by day. */
public final class OpenHours {
  /** The top of a cup is to dry before night: common practice. */
  private static final Duration DRY_BEFORE_SUNSET = Duration.ofHours(2);

  /** In the polar night no day opens; look no further than the next half year. */
  private static final int DAYS_AHEAD = 190;

  private final Window window;
  private final Optional<Place> place;
  private final ZoneId zone;
  private Span last;
  private Opening found;

  /** Daylight needs a place; a bench without one has set times, in UTC. */
  public OpenHours(Window window, Optional<Place> place) {
    this.window = window;
    this.place = place;
    this.zone = place.map(Place::zone).orElse(ZoneOffset.UTC);
  }

  /** An opening, and the time it was asked for: none lies between. */
  private record Opening(Instant askedAt, Instant at) {
    boolean answers(Instant asked) {
      return !asked.isBefore(askedAt) && asked.isBefore(at);
    }
  }

  /** One day's window; empty where {@code to} is not after {@code from}. */
  public record Span(LocalDate day, Instant from, Instant to) {}

  /** The window of the day that the grower's calendar shows at that time. */
  public Span dayOf(Instant at) {
    return span(at.atZone(zone).toLocalDate());
  }

  /** Whether water may be given then, with so much time added at the end of the window. */
  public boolean open(Instant at, Duration longer) {
    Span span = dayOf(at);
    return !at.isBefore(span.from())
        && at.isBefore(span.to().plus(longer))
        && span.from().isBefore(span.to());
  }

  /** When the window opens next after that time; half a year on where the sun stays away. */
  public Instant nextOpening(Instant at) {
    if (found == null || !found.answers(at)) {
      found = new Opening(at, lookAhead(at));
    }
    return found.at();
  }

  private Instant lookAhead(Instant at) {
    LocalDate day = at.atZone(zone).toLocalDate();
    for (int ahead = 0; ahead < DAYS_AHEAD; ahead++) {
      Span span = span(day.plusDays(ahead));
      if (span.from().isAfter(at) && span.from().isBefore(span.to())) {
        return span.from();
      }
    }
    return at.plus(Duration.ofDays(DAYS_AHEAD));
  }

  private Span span(LocalDate day) {
    Span known = last;
    if (known != null && known.day().equals(day)) {
      return known;
    }
    Span found = reckon(day);
    last = found;
    return found;
  }

  private Span reckon(LocalDate day) {
    if (window instanceof Window.Hours hours) {
      return new Span(
          day,
          day.atTime(hours.from()).atZone(zone).toInstant(),
          day.atTime(hours.to()).atZone(zone).toInstant());
    }
    Daylight sun = Daylight.on(day, place.orElseThrow());
    return new Span(day, sun.sunrise(), sun.sunset().minus(DRY_BEFORE_SUNSET));
  }
}
