package dev.cupwarden.board;

/** A board that cannot be used as it is wired; the message is one sentence for the grower. */
public final class BoardException extends Exception {
  private static final long serialVersionUID = 1L;

  public BoardException(String sentence) {
    super(sentence);
  }

  public BoardException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
