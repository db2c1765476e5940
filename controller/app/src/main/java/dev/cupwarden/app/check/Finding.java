package dev.cupwarden.app.check;

/**
 * One thing that was looked at.
 *
 * @param level how it came out
 * @param subject such as {@code wiring} or {@code sensors}
 * @param sentence what was found, and what to do where it is not well
 */
record Finding(Level level, String subject, String sentence) {
  /** How bad it is. */
  enum Level {
    OK("ok"),
    /** May be left so, but a person should know. */
    NOTE("note"),
    /** The bench must not be left alone like this. */
    FAIL("FAIL");

    private final String word;

    Level(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }
  }

  static Finding ok(String subject, String sentence) {
    return new Finding(Level.OK, subject, sentence);
  }

  static Finding note(String subject, String sentence) {
    return new Finding(Level.NOTE, subject, sentence);
  }

  static Finding fail(String subject, String sentence) {
    return new Finding(Level.FAIL, subject, sentence);
  }
}
