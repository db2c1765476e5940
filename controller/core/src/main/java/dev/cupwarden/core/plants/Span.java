package dev.cupwarden.core.plants;

/**
 * From one number to another, both included.
 *
 * @param least not above {@code most}
 */
public record Span(double least, double most) {
  /**
   * @throws IllegalArgumentException where they are not in order
   */
  public Span {
    if (!(least <= most)) {
      throw new IllegalArgumentException(least + " to " + most + " is not in rising order");
    }
  }
}
