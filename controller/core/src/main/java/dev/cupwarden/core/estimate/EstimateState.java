package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * What is kept of one cup between two looks; it survives a restart in the journal. Only the chain
 * of this package reads its parts; others ask {@link CupEstimate}, {@link #capacity} and {@link
 * #use}.
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
    Capacity capacity) {

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
        Capacity.PREDICTED);
  }

  /** The bench file's weights of this cup with what was learned of its capacity put over them. */
  public WeightFrame frame(WeightFrame predicted) {
    return capacity.over(predicted);
  }

  /** Whether the last reading fits nothing yet: the next tells a spike from a change. */
  public boolean inDoubt() {
    return doubt != null;
  }

  /** Whether the cup has a weight that could be told as its capacity. */
  public boolean weighed() {
    return filter != null;
  }

  /**
   * After a person said that the cup was soaked and drained just now, or two passes hardly raised
   * it near its capacity: its weight is its capacity. Changes nothing for a cup without a weight.
   */
  public EstimateState drained(Instant now) {
    if (filter == null) {
      return this;
    }
    return withCapacity(capacity.told(now, filter.predict(now).massG()));
  }

  /** With another learned capacity. */
  public EstimateState withCapacity(Capacity other) {
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
        use,
        drainage,
        other);
  }
}
