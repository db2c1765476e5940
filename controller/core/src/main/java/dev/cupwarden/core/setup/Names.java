package dev.cupwarden.core.setup;

import java.util.Collection;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Which names the parts of a bench may have, and how the known ones are listed to a person. */
public final class Names {
  /** What a name on the wire may be, in words. */
  public static final String RULE =
      "expected 1 to 32 letters A to Z, digits, '-', '_' or '.', beginning with a letter or digit";

  /** Safe as one level of an MQTT topic and as a part of a SenML name (RFC 8428, section 4.5.1). */
  private static final Pattern ON_THE_WIRE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,31}");

  private static final int LISTED = 12;

  private Names() {}

  /** Whether a bench, cup, tank or part of the board may be called so. */
  public static boolean isSafe(String name) {
    return ON_THE_WIRE.matcher(name).matches();
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
