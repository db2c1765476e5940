package dev.cupwarden.core.units;

/** What somebody wrote, quoted back to them: short, on one line, nothing that moves a terminal. */
public final class Quoted {
  private static final int LONGEST = 40;

  private Quoted() {}

  /** In double quotes, at most 40 characters of it, control characters shown as {@code ?}. */
  public static String text(String written) {
    StringBuilder quoted = new StringBuilder("\"");
    written.codePoints().limit(LONGEST).forEach(point -> quoted.appendCodePoint(visible(point)));
    if (written.codePointCount(0, written.length()) > LONGEST) {
      quoted.append('…');
    }
    return quoted.append('"').toString();
  }

  private static int visible(int point) {
    int type = Character.getType(point);
    boolean unseen =
        Character.isISOControl(point)
            || type == Character.FORMAT
            || type == Character.SURROGATE
            || type == Character.LINE_SEPARATOR
            || type == Character.PARAGRAPH_SEPARATOR;
    return unseen ? '?' : point;
  }
}
