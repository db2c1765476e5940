package dev.cupwarden.host.ingest;

/** A message is not what its topic promises; the text says what was found and expected. */
final class MalformedException extends Exception {
  private static final long serialVersionUID = 1L;

  MalformedException(String reason) {
    super(reason);
  }
}
