package dev.cupwarden.core.watering;

import java.time.Instant;

/**
 * A cup's account of water: what it lost by its weight, what is usual, what it was given since it
 * was last full, and whether its scale can be believed in that.
 *
 * @param seenAt of the last weight taken in; null: none
 * @param seenG that weight, gross grams; NaN: none
 * @param losses of the last day
 * @param usual use
 * @param more how many times as much the bench loses just now as is usual, or has light; 1 or more
 * @param full since it was last full; null: it never was
 * @param half of its room, for a rescue or an order
 * @param rises of its weight by passes
 * @param drift of its scale
 */
public record WaterAccount(
    Instant seenAt,
    double seenG,
    LossLog losses,
    UsualUse usual,
    double more,
    SinceFull full,
    HalfRoom half,
    Rises rises,
    ScaleDrift drift) {
  public static final WaterAccount NONE =
      new WaterAccount(
          null,
          Double.NaN,
          LossLog.EMPTY,
          UsualUse.UNKNOWN,
          1.0,
          null,
          HalfRoom.NONE,
          Rises.NONE,
          ScaleDrift.NONE);

  /** In a day a cup loses at most so many times what is foretold: our choice. */
  public static final double MOST_TIMES = 2.0;

  /**
   * After a weight.
   *
   * @param lost since the one before
   */
  public WaterAccount seen(Instant at, double massG, LossLog.Slot lost) {
    return new WaterAccount(
        at,
        massG,
        losses.plus(at, lost),
        usual,
        more,
        full == null ? null : full.lost(at, lost.lostG(), lost.foretoldG()),
        half,
        rises,
        drift);
  }

  /** Where a step that its scale showed was never the cup's own. */
  public WaterAccount without(double stepG) {
    return new WaterAccount(seenAt, seenG - stepG, losses, usual, more, full, half, rises, drift);
  }

  /** What is foretold for so many hours in such air, g; {@code predicted} before it is known. */
  public double foretoldG(double hours, double driveKpa, double predictedGPerH) {
    double gPerH = usual.days() > 0 ? more * usual.perKpa() * driveKpa : predictedGPerH;
    return gPerH * hours;
  }

  /** With so much given; less than 0 where a person takes back what was told. */
  public WaterAccount given(double ml, boolean byHand) {
    return full == null ? this : withFull(full.given(ml, byHand));
  }

  /**
   * After its weight has judged passes.
   *
   * @param riseG that it showed
   * @param pumpPart what part of an order the pump gives
   */
  public WaterAccount arrived(double orderedMl, double riseG, double pumpPart) {
    return full == null ? this : withFull(full.arrived(orderedMl, riseG / pumpPart));
  }

  /** At its refill line or at capacity, with so much still missing to the line. */
  public WaterAccount filled(Instant at, double roomMl) {
    return withFull(SinceFull.now(at, Math.max(0.0, roomMl)));
  }

  /** Half of its room is begun, unless it is. */
  public WaterAccount halfBegun(Instant at, double ml) {
    return half.begun(at) ? this : with(usual, more, full, new HalfRoom(at, ml), rises, drift);
  }

  /** After a pass that raised it by that part of what was ordered. */
  public WaterAccount rose(double part) {
    return with(usual, more, full, half, rises.plus(part), drift);
  }

  WaterAccount usual(UsualUse other) {
    return with(other, more, full, half, rises, drift);
  }

  WaterAccount more(double other) {
    return with(usual, other, full, half, rises, drift);
  }

  WaterAccount drift(ScaleDrift other) {
    return with(usual, more, full, half, rises, other);
  }

  /** From here on its scale is not believed. */
  public WaterAccount doubted(Instant at, double massG) {
    return drift(drift.tell(at, massG));
  }

  /** While its scale is not believed. */
  public WaterAccount reckoned(Instant at, double massG, double foretoldG) {
    return new WaterAccount(
        at,
        massG,
        LossLog.EMPTY,
        usual,
        more,
        full == null ? null : full.lost(at, foretoldG, foretoldG),
        half,
        rises,
        drift);
  }

  /**
   * While nobody weighs it: what it is reckoned to lose counts, as what it is given does. The next
   * weight begins anew; how far that is from what was reckoned is no loss of a moment.
   */
  public WaterAccount unweighed(Instant at, double lostG) {
    SinceFull since = full == null ? null : full.lost(at, lostG, lostG);
    return new WaterAccount(null, Double.NaN, losses, usual, more, since, half, rises, drift);
  }

  /**
   * A person has seen to the scale: what it shows is believed again.
   *
   * @param sound whether the scale was right after all: then what it showed is how the cup dries,
   *     and its use is learned anew
   */
  public WaterAccount proved(boolean sound) {
    UsualUse kept = sound ? UsualUse.UNKNOWN : usual;
    return new WaterAccount(
        null, Double.NaN, LossLog.EMPTY, kept, 1.0, null, half, rises, ScaleDrift.NONE);
  }

  private WaterAccount withFull(SinceFull other) {
    return with(usual, more, other, half, rises, drift);
  }

  private WaterAccount with(
      UsualUse otherUsual,
      double otherMore,
      SinceFull otherFull,
      HalfRoom otherHalf,
      Rises otherRises,
      ScaleDrift otherDrift) {
    return new WaterAccount(
        seenAt, seenG, losses, otherUsual, otherMore, otherFull, otherHalf, otherRises, otherDrift);
  }
}
