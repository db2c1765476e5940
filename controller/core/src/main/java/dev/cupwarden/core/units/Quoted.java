package dev.cupwarden.core.units;

/** What somebody wrote, quoted back to them: short, on one line, nothing that moves a terminal. */
public final class Quoted {
  private static final int LONGEST = 40;

  private Quoted() {}

  /** In double quotes, at most 40 characters of it, control characters shown as {@code ?}. */
  public static String text(String written) {
    return '"' + line(written, LONGEST) + '"';
  }

  /** Likewise without quotes, and at most so many characters of it. */
  public static String line(String written, int longest) {
    StringBuilder line = new StringBuilder();
    written.codePoints().limit(longest).forEach(point -> line.appendCodePoint(visible(point)));
    return written.codePointCount(0, written.length()) > longest
        ? line.append('…').toString()
        : line.toString();
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
