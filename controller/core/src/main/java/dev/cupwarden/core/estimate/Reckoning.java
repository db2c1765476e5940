package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * What lets a cup be reckoned on when its weight is not seen: learned while it is weighed, used
 * while it is not.
 *
 * @param share of what the bench loses
 * @param arrivals of its passes
 * @param water reckoned; null while the cup is weighed
 */
public record Reckoning(Share share, Arrivals arrivals, OwnWater water) {
  /** Of a cup of which nothing was learned. */
  public static final Reckoning NONE = new Reckoning(Share.NONE, Arrivals.USUAL, null);

  /** After hours in which it was weighed: what was reckoned gives way to the weight. */
  public Reckoning weighed(double lostG, double index, double hours) {
    return new Reckoning(share.plus(lostG, index, hours), arrivals, null);
  }

  /** After hours in which it was weighed and watered. */
  public Reckoning wateredFor(double index, double hours) {
    return new Reckoning(share.watered(index, hours), arrivals, null);
  }

  /** With that reckoned of its water. */
  public Reckoning with(OwnWater other) {
    return new Reckoning(share, arrivals, other);
  }

  /** After a pass that the weight bore out. */
  public Reckoning arrived(double riseG, double orderedMl) {
    return new Reckoning(share, arrivals.plus(riseG, orderedMl), water);
  }

  /** After a pass into a cup that weighs so much when drained; a cup that is weighed will tell. */
  public Reckoning pass(double ml, double capacityG) {
    return water == null ? this : with(water.given(ml, arrivals.part(), capacityG));
  }

  /** After a person's can. */
  public Reckoning watered(double ml, double capacityG) {
    return water == null ? this : with(water.given(ml, 1.0, capacityG));
  }

  /** After a person took back that they watered it. */
  public Reckoning without(double ml) {
    return water == null ? this : with(water.without(ml));
  }

  /** Whether the cup is reckoned on. */
  public boolean on() {
    return water != null;
  }

  /** Since when; null while it is weighed. */
  public Instant since() {
    return water == null ? null : water.since();
  }
}
