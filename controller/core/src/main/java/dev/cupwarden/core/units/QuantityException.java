package dev.cupwarden.core.units;

/** Text that is not the quantity it should be; the message is one sentence for the grower. */
public final class QuantityException extends Exception {
  private static final long serialVersionUID = 1L;

  QuantityException(String sentence) {
    super(sentence);
  }
}
