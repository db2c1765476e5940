package dev.cupwarden.app.calibrate;

/** A calibration that does not hold together; the message is one sentence with the figures. */
final class Refused extends Exception {
  private static final long serialVersionUID = 1L;

  Refused(String sentence) {
    super(sentence);
  }
}
