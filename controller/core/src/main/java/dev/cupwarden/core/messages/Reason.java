package dev.cupwarden.core.messages;

/**
 * Why something is or is not done, in numbers; {@link Sentences} makes words of it at the edge.
 *
 * @param code a limit's or a cause's name
 * @param value what was found
 * @param threshold what it was held against
 * @param unit of both, "" for pure numbers
 * @param detail what of several things it is, such as {@code tank-empty} of {@code hardware}; ""
 *     where the code says all
 */
public record Reason(String code, double value, double threshold, String unit, String detail) {
  /** Whose code says all. */
  public Reason(String code, double value, double threshold, String unit) {
    this(code, value, threshold, unit, "");
  }
}
