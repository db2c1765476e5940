package dev.cupwarden.host.web;

import io.javalin.http.HttpStatus;

/** A request that cannot be answered; the message is one sentence for who asked. */
final class ApiException extends RuntimeException {
  private static final long serialVersionUID = 1L;
  private final HttpStatus status;

  ApiException(HttpStatus status, String sentence) {
    super(sentence);
    this.status = status;
  }

  HttpStatus status() {
    return status;
  }
}
