package dev.cupwarden.core.setup;

/** A bench file that cannot be used; the message is one sentence for the grower. */
public final class SetupException extends Exception {
  private static final long serialVersionUID = 1L;

  public SetupException(String sentence) {
    super(sentence);
  }
}
