package dev.cupwarden.core.bench;

import java.lang.reflect.InvocationTargetException;
import java.util.Arrays;
import java.util.regex.Pattern;

/**
 * Runs a benchmark if it is among the chosen ones. Every module names its benchmarks by this, so
 * that one property chooses from all of them.
 */
public final class Chosen {
  private Chosen() {}

  /**
   * Arguments: a regular expression that is looked for in the class's name, the class, and what its
   * {@code main} is given.
   */
  public static void main(String[] arguments) throws Exception {
    String name = arguments[1];
    if (!Pattern.compile(arguments[0]).matcher(name).find()) {
      return;
    }
    String[] rest = Arrays.copyOfRange(arguments, 2, arguments.length);
    try {
      Class.forName(name).getMethod("main", String[].class).invoke(null, (Object) rest);
    } catch (InvocationTargetException failed) {
      if (failed.getCause() instanceof Exception why) {
        throw why;
      }
      throw failed;
    }
  }
}
