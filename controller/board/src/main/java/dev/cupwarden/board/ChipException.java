package dev.cupwarden.board;

/** A chip or line that did not do what it was asked; the message is one sentence. */
public final class ChipException extends Exception {
  private static final long serialVersionUID = 1L;

  public ChipException(String sentence) {
    super(sentence);
  }

  public ChipException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
