package dev.cupwarden.core.estimate;

/** What was the matter when a cup's weight stopped being believed. */
enum Fault {
  OUT_OF_RANGE(DistrustCode.SCALE_OUT_OF_RANGE),
  LIFTED(DistrustCode.SETTLING),
  STUCK(DistrustCode.SCALE_STUCK),
  NOISY(DistrustCode.SCALE_NOISY),
  MOVED(DistrustCode.SETTLING);

  private final DistrustCode distrust;

  Fault(DistrustCode distrust) {
    this.distrust = distrust;
  }

  /** Why its weight is not believed. */
  DistrustCode distrust() {
    return distrust;
  }
}
