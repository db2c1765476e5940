package dev.cupwarden.host;

/** The host cannot start or go on; the message is one sentence for the person who started it. */
public final class HostException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public HostException(String sentence) {
    super(sentence);
  }

  public HostException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
