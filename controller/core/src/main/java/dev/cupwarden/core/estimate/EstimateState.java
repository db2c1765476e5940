package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * What is kept of one cup between two looks; it survives a restart in the journal. Only the chain
 * of this package reads its parts; others ask {@link CupEstimate}, {@link #capacity} and {@link
 * #use}. Its parts are many, and each is written by one link of that chain: rooms among them would
 * only be unpacked and packed again at every look.
 *
 * @param seenAt last look; null: none
 * @param readAt last look that read a number; null: none
 * @param freshUntil from then on the last reading is too old; null: none was read
 * @param filter mass and rate; null until a first plausible reading
 * @param weather for which the rate holds
 * @param standstill of the raw reading; null: none was read
 * @param doubt a reading that did not fit, waiting for the next; null: none
 * @param excursion a time in which the weight is not believed; null: it is
 * @param creep of the load cell
 * @param noise of the scale
 * @param awaitedMl ordered and not yet seen as a rise, mL
 * @param awaitedSince when last ordered; null: never
 * @param use of water over the last days
 * @param drainage after a rise to about capacity; null: none under way
 * @param capacity learned
 * @param byLight how its use answers to light; null in an older journal: nothing is known
 * @param day how its use goes through the hours; null in an older journal: nothing is known
 * @param pull to which side the last readings keep lying of what was expected, in standard
 *     deviations
 */
public record EstimateState(
    Instant seenAt,
    Instant readAt,
    Instant freshUntil,
    LoadFilter filter,
    Weather weather,
    Standstill standstill,
    Doubt doubt,
    Excursion excursion,
    Creep creep,
    Noise noise,
    double awaitedMl,
    Instant awaitedSince,
    DryingUse use,
    Drainage drainage,
    Capacity capacity,
    LightUse byLight,
    DayProfile day,
    double pull) {

  /** From here on a scale is noisy, g. */
  public static final double NOISY_SD_G = Noise.GREAT_SD_G;

  /** A reckoned rate is known within a third of itself (our choice). */
  private static final double RATE_DOUBTED_VAR = 1.0 / 9;

  /** What an older journal does not know is null in it. */
  public EstimateState {
    byLight = byLight == null ? LightUse.NONE : byLight;
    day = day == null ? DayProfile.NONE : day;
  }

  /** A cup that was never seen. */
  public static EstimateState fresh() {
    return new EstimateState(
        null,
        null,
        null,
        null,
        Weather.UNKNOWN,
        null,
        null,
        null,
        Creep.NONE,
        Noise.GUESS,
        0,
        null,
        DryingUse.NONE,
        null,
        Capacity.PREDICTED,
        LightUse.NONE,
        DayProfile.NONE,
        0);
  }

  /** The bench file's weights of this cup with what was learned of its capacity put over them. */
  public WeightFrame frame(WeightFrame predicted) {
    return capacity.over(predicted);
  }

  /** What its scale should show of the cup at that time, g; NaN where nothing is known of it. */
  public double expectedG(Instant at) {
    return filter == null ? Double.NaN : sound().predict(at).expectedG(weather.warmC());
  }

  /** How far off that a reading of the cup may be, g. */
  public double expectedWithinG(Instant at) {
    double sdG = readingSdG();
    return filter == null
        ? 0.0
        : HampelGate.limitG(sound().predict(at).readingVar(weather.warmC(), sdG * sdG));
  }

  /** What was believed last: what is shown while the weight is not believed is another thing. */
  private LoadFilter sound() {
    return excursion == null || excursion.before() == null ? filter : excursion.before();
  }

  /** The same cup where a step that its scale showed was never its own. */
  public EstimateState without(double stepG) {
    LoadFilter moved = filter == null ? null : filter.jumpTo(filter.massG() - stepG, filter.varM());
    return new EstimateState(
        seenAt,
        readAt,
        freshUntil,
        moved,
        weather,
        standstill == null ? null : standstill.without(stepG),
        null,
        null,
        creep,
        noise.interrupted(),
        awaitedMl,
        awaitedSince,
        use,
        null,
        capacity,
        byLight,
        day,
        pull);
  }

  /** Whether the last reading fits nothing yet: the next tells a spike from a change. */
  public boolean inDoubt() {
    return doubt != null;
  }

  /** Whether what its scale shows is believed, whatever stands there. */
  public boolean settled() {
    return excursion == null;
  }

  /** Whether it was filled to about capacity just now, and what it loses may be runoff. */
  public boolean draining() {
    return drainage != null;
  }

  /** The last number that was read, at the scale's reference temperature, g; NaN: none was. */
  public double readingG() {
    double shownG = standstill == null ? Double.NaN : standstill.massG();
    return filter == null ? shownG : shownG - filter.gPerC() * weather.warmC();
  }

  /**
   * Whether somebody had the cup in hand and its weight has not been believed since: it was lifted
   * or moved, or another load stands in its stead. A scale whose wire is broken shows a load that
   * no cup has, too, but to the last bit the same for half a day.
   */
  public boolean handled() {
    if (excursion == null) {
      return false;
    }
    return switch (excursion.fault()) {
      case LIFTED, MOVED -> true;
      case OUT_OF_RANGE -> excursion.strangerTold() && !standstill.always(readAt);
      case STUCK, NOISY -> false;
    };
  }

  /** Whether the cup has a weight that could be told as its capacity. */
  public boolean weighed() {
    return filter != null;
  }

  /** Standard deviation of one reading by itself, g: the scale's noise and its rounding. */
  public double readingSdG() {
    double rounding = standstill == null ? 0 : standstill.roundingSdG();
    return Math.hypot(noise.sdG(), rounding);
  }

  /** Standard deviation of one reading by itself, without rounding, g. */
  public double noiseG() {
    return noise.sdG();
  }

  /** For how many hours of readings the scale has been noisy. */
  public double noisyH() {
    return noise.greatH();
  }

  /** After a person took back that it was watered by so much: that is no longer awaited. */
  public EstimateState withoutAwaited(double ml) {
    return with(filter, doubt, excursion, Math.max(0, awaitedMl - ml), drainage, capacity);
  }

  /** With another learned capacity. */
  public EstimateState withCapacity(Capacity other) {
    return with(filter, doubt, excursion, awaitedMl, drainage, other);
  }

  /** Of what stood in its place meanwhile neither capacity nor use is learned: as they were. */
  public EstimateState learnedAs(EstimateState known) {
    return new EstimateState(
        seenAt,
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
        known.use,
        drainage,
        known.capacity,
        known.byLight,
        known.day,
        pull);
  }

  /**
   * A cup that is back on its scale after another stood there: it goes on from what it was reckoned
   * to weigh, and its next readings are held against that.
   */
  public EstimateState goingOnFrom(OwnWater own) {
    if (filter == null) {
      return this;
    }
    double rate = own.rateGPerH();
    LoadFilter itself =
        filter.jumpTo(own.massG(), own.varG2()).withRate(rate, rate * rate * RATE_DOUBTED_VAR);
    Excursion open = excursion == null ? null : excursion.ofCup(itself);
    return with(itself, null, open, 0, null, capacity);
  }

  private EstimateState with(
      LoadFilter otherFilter,
      Doubt otherDoubt,
      Excursion otherExcursion,
      double otherAwaitedMl,
      Drainage otherDrainage,
      Capacity otherCapacity) {
    return new EstimateState(
        seenAt,
        readAt,
        freshUntil,
        otherFilter,
        weather,
        standstill,
        otherDoubt,
        otherExcursion,
        creep,
        noise,
        otherAwaitedMl,
        awaitedSince,
        use,
        otherDrainage,
        otherCapacity,
        byLight,
        day,
        pull);
  }
}
