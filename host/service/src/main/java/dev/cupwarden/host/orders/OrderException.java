package dev.cupwarden.host.orders;

/** An order could not be sent; the message is one sentence for the person who gave it. */
public final class OrderException extends Exception {
  private static final long serialVersionUID = 1L;

  /** Whose fault it is. */
  public enum Problem {
    /** It is no order: the same again will be refused again. */
    NOT_AN_ORDER,
    /** The bench is not known here. */
    NO_SUCH_BENCH,
    /** The broker is not there: try again later. */
    NOT_SENT
  }

  private final Problem because;

  OrderException(Problem because, String sentence) {
    super(sentence);
    this.because = because;
  }

  public Problem because() {
    return because;
  }
}
