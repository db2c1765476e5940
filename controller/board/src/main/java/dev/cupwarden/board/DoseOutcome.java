package dev.cupwarden.board;

/**
 * What became of a pass. Volumes are what the pump moved by its own rate and on-time, mL; the cup's
 * weight is the witness of what arrived.
 */
public sealed interface DoseOutcome {
  /** Run from the plain tank, mL. */
  double plainMl();

  /** Run from the feed tank, mL. */
  double feedMl();

  /** The pump ran for all that was ordered. */
  record Given(double plainMl, double feedMl) implements DoseOutcome {}

  /**
   * The pass ended early, or never began.
   *
   * @param reason one sentence
   */
  record Failed(double plainMl, double feedMl, String reason) implements DoseOutcome {}
}
