package dev.cupwarden.app.loop;

/** Whether a bench is watered or only watched, as whoever starts the program says. */
public enum RunMode {
  /** Nothing is pumped from now on. */
  WATCH,
  /** A watch that went before is over. */
  WATER,
  /** As the last start on the same journal was; a new journal waters. */
  AS_LEFT;

  /**
   * A watch outlives a start that does not speak of it, such as a restart by other means: that it
   * is over is for a person to say.
   *
   * @param watchedBefore whether the last start on this journal only watched
   */
  boolean watches(boolean watchedBefore) {
    return this == WATCH || (this == AS_LEFT && watchedBefore);
  }
}
