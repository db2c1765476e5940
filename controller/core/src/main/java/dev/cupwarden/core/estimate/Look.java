package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.List;

/** One look while it is worked on: the state's parts, open to the steps of the chain. */
final class Look {
  /** Awaited passes show within this time or not at all, min. */
  private static final double AWAITED_MIN = 30;

  private static final double HOURS_OF_GUESS = 240;

  final CupReading reading;
  final Instant at;

  /** The cup's weights with its learned capacity. */
  final WeightFrame frame;

  /** Since the last look that read a number, h; 0 at the first. */
  final double hoursUnread;

  /** What the scale showed at the last look that read a number, g; NaN at the first. */
  final double lastReadG;

  /** Part by which light and air have changed a rate since the last look. */
  final double change;

  Instant readAt;
  Instant freshUntil;
  LoadFilter filter;
  Weather weather;
  Standstill standstill;
  Doubt doubt;
  Excursion excursion;
  Creep creep;
  Noise noise;
  double awaitedMl;
  Instant awaitedSince;
  DryingUse use;
  Drainage drainage;
  Capacity capacity;
  LightUse byLight;
  DayProfile day;
  double pull;
  List<WeightEvent> events = List.of();

  Look(EstimateState state, WeightFrame predicted, CupReading reading) {
    this.reading = reading;
    at = reading.at();
    frame = state.frame(predicted);
    readAt = state.readAt();
    hoursUnread = readAt == null ? 0 : Elapsed.hours(readAt, at);
    freshUntil = state.freshUntil();
    filter = state.filter();
    standstill = state.standstill();
    lastReadG = standstill == null ? Double.NaN : standstill.massG();
    doubt = state.doubt();
    excursion = state.excursion();
    creep = state.creep();
    noise = state.noise();
    use = state.use();
    drainage = state.drainage();
    capacity = state.capacity();
    pull = state.pull();
    awaitedMl = state.awaitedMl();
    awaitedSince = state.awaitedSince();
    await(reading.ownDoseMl());
    double hoursUnseen = state.seenAt() == null ? 0 : Elapsed.hours(state.seenAt(), at);
    weather = state.weather().next(reading.vpdKpa(), reading.tempC(), hoursUnseen);
    byLight = state.byLight().under(reading.light().umol());
    day = state.day();
    change = filter == null ? 1 : weather.against(state.weather()) * byLight(state, hoursUnseen);
    if (filter != null) {
      LoadFilter before = filter;
      filter = filter.predict(at);
      double slowed = change * DryFall.of(frame).times(before.massG(), filter.massG());
      filter = slowed == 1 ? filter : filter.changeRate(slowed);
    }
  }

  /** By measured light; else as the hours of its days differ; else as the lamp burns. */
  private double byLight(EstimateState state, double hoursUnseen) {
    double hour = reading.light().hour();
    return reading.light().measured() || !day.known() || Double.isNaN(hour)
        ? byLight.against(state.byLight())
        : day.times(hour - hoursUnseen, hour);
  }

  private void await(double orderedMl) {
    if (orderedMl > 0 && orderedMl < 1e6) {
      awaitedMl = (awaitedOpen() ? awaitedMl : 0) + orderedMl;
      awaitedSince = at;
      if (excursion != null) {
        excursion = excursion.ordered(orderedMl);
      }
    }
  }

  /** Whether passes were ordered that have not been seen yet and still may be. */
  boolean awaitedOpen() {
    if (!(awaitedMl > 0)) {
      return false;
    }
    // Ordered before this look and not read since: however late, this is the first look at it.
    return readAt == null
        || !awaitedSince.isBefore(readAt)
        || Elapsed.minutes(awaitedSince, at) <= AWAITED_MIN;
  }

  /** Whether this look is the first to read since passes were ordered. */
  boolean firstAfterOrder() {
    return awaitedMl > 0 && (readAt == null || awaitedSince.isAfter(readAt));
  }

  /** Variance of this reading by itself, g². */
  double readingNoiseVar() {
    double rounding = standstill == null ? 0 : standstill.roundingSdG();
    return noise.varG2() + creep.var(at) + rounding * rounding;
  }

  /** The reading at the reference temperature, g. */
  double correctedG() {
    return reading.massG() - (filter == null ? 0 : filter.gPerC() * weather.warmC());
  }

  /** Loss to be expected of a cup of which nothing is known, g/h: its water lasts ten days. */
  double guessGPerH() {
    return frame.availableMl() / HOURS_OF_GUESS;
  }

  void tell(WeightEvent event) {
    if (events.isEmpty()) {
      events = List.of(event);
    } else {
      var more = new java.util.ArrayList<>(events);
      more.add(event);
      events = List.copyOf(more);
    }
  }

  EstimateState state() {
    return new EstimateState(
        at,
        readAt,
        freshUntil,
        filter,
        weather,
        standstill,
        doubt,
        excursion,
        creep,
        noise,
        awaitedMl,
        awaitedSince,
        use,
        drainage,
        capacity,
        byLight,
        day,
        pull);
  }
}
