package dev.cupwarden.host.web;

/** A request that cannot be answered; the message is one sentence for who asked. */
final class ApiException extends RuntimeException {
  private static final long serialVersionUID = 1L;
  private final int status;

  ApiException(int status, String sentence) {
    super(sentence);
    this.status = status;
  }

  int status() {
    return status;
  }
}
