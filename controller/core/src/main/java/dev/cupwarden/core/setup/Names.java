package dev.cupwarden.core.setup;

import java.util.Collection;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Which names the parts of a bench may have, which ids orders may, and how the known ones are
 * listed to a person: one rule for bench file, orders and whoever stores what a bench tells, since
 * what one of them took and the next refused would stand in the way of all that follows it.
 */
public final class Names {
  /** What a name on the wire may be, in words. */
  public static final String RULE =
      "expected 1 to 32 letters A to Z, digits, '-', '_' or '.', beginning with a letter or digit";

  /** Safe as one level of an MQTT topic and as a part of a SenML name (RFC 8428, section 4.5.1). */
  private static final Pattern ON_THE_WIRE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,31}");

  /** What an order's id may be, in words. */
  public static final String ID_RULE =
      "expected a text of 1 to 64 characters, none of them a control character";

  private static final int LONGEST_ID = 64;

  private static final int LISTED = 12;

  private Names() {}

  /** Whether a bench, cup, tank or part of the board may be called so. */
  public static boolean isSafe(String name) {
    return ON_THE_WIRE.matcher(name).matches();
  }

  /** Whether an order may have that id. */
  public static boolean isId(String id) {
    return !id.isBlank() && id.length() <= LONGEST_ID && isPlain(id);
  }

  /**
   * Whether a text can be stored and shown anywhere: no control character, no line or paragraph
   * separator, no half of a surrogate pair. A database may refuse these, a terminal obey them.
   */
  public static boolean isPlain(String text) {
    return text.codePoints()
        .noneMatch(
            point -> {
              int type = Character.getType(point);
              return type == Character.CONTROL
                  || type == Character.LINE_SEPARATOR
                  || type == Character.PARAGRAPH_SEPARATOR
                  || type == Character.SURROGATE;
            });
  }

  /** The known names as a list for a sentence; a long list is cut, and says by how many. */
  public static String list(Collection<String> known) {
    if (known.isEmpty()) {
      return "none";
    }
    String listed = known.stream().limit(LISTED).collect(Collectors.joining(", "));
    int more = known.size() - LISTED;
    return more > 0 ? listed + " and " + more + " more" : listed;
  }
}
