package dev.cupwarden.core.estimate;

/**
 * The hours of one day in which the bench lost more than it usually does, and what a cup lost in
 * them.
 *
 * @param lostG by the cup while it was seen, g
 * @param indexH the bench's index summed over the hours seen
 * @param unseenIndexH likewise over those in which it was watered
 */
public record BrightHours(double lostG, double indexH, double unseenIndexH) {
  /** None so far. */
  public static final BrightHours NONE = new BrightHours(0, 0, 0);

  BrightHours seen(double moreG, double moreIndexH) {
    return new BrightHours(lostG + moreG, indexH + moreIndexH, unseenIndexH);
  }

  BrightHours unseen(double moreIndexH) {
    return new BrightHours(lostG, indexH, unseenIndexH + moreIndexH);
  }

  /** What it must have lost unseen, g: as in the hours that were as bright. */
  double missedG() {
    return indexH > 0 ? missedIndexH() * Math.max(0, lostG / indexH) : 0;
  }

  /** The index over those hours; none where no bright hour was seen to go by. */
  double missedIndexH() {
    return indexH > 0 ? unseenIndexH : 0;
  }
}
