package dev.cupwarden.core.estimate;

/** What was the matter when a cup's weight stopped being believed. */
enum Fault {
  OUT_OF_RANGE("scale-out-of-range"),
  LIFTED("settling"),
  STUCK("scale-stuck"),
  NOISY("scale-noisy"),
  MOVED("settling");

  private final String code;

  Fault(String code) {
    this.code = code;
  }

  String code() {
    return code;
  }
}
