package dev.cupwarden.host.notify;

/** A notice was not taken; the message says by whom and why, without any secret. */
final class NotSentException extends Exception {
  private static final long serialVersionUID = 1L;

  NotSentException(String sentence, Throwable cause) {
    super(sentence, cause);
  }

  NotSentException(String sentence) {
    super(sentence);
  }
}
