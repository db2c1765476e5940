package dev.cupwarden.board;

/** Codes of 24-bit two's-complement converters. */
final class Counts24 {
  static final int LEAST = -0x800000;
  static final int GREATEST = 0x7FFFFF;

  private Counts24() {}

  /** Three bytes, most significant first, as a signed number. */
  static int of(byte high, byte middle, byte low) {
    return (high << 16) | ((middle & 0xFF) << 8) | (low & 0xFF);
  }

  /**
   * The number itself unless it is one of the two ends, where the converter has run out of range.
   */
  static int inRange(int counts) throws ChipException {
    if (counts == LEAST || counts == GREATEST) {
      throw new ChipException(
          "The converter is at its %s end (0x%06x): the cell is overloaded or a wire is off."
              .formatted(counts == LEAST ? "lower" : "upper", counts & 0xFFFFFF));
    }
    return counts;
  }
}
