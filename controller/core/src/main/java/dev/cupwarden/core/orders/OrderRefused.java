package dev.cupwarden.core.orders;

/** An order that changes nothing; the message is one sentence for the person who gave it. */
public final class OrderRefused extends Exception {
  private static final long serialVersionUID = 1L;

  public OrderRefused(String sentence) {
    super(sentence);
  }
}
