package dev.cupwarden.core.feeding;

import java.util.List;

/**
 * Level teaspoons in words, in the eighths that spoons come in: "a little over 1/2 level teaspoon".
 */
public final class Teaspoons {
  private static final List<String> EIGHTHS =
      List.of("", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8");

  /** Nobody levels a spoon closer than to this part of it: our choice. */
  private static final double AS_GOOD_AS = 0.02;

  private Teaspoons() {}

  /** So many level teaspoons, above 0, to the nearest eighth. */
  public static String words(double levelTeaspoons) {
    long eighths = Math.max(1, Math.round(levelTeaspoons * 8));
    double off = levelTeaspoons / (eighths / 8.0) - 1;
    String how =
        off > AS_GOOD_AS ? "a little over " : off < -AS_GOOD_AS ? "a little under " : "about ";
    String whole = eighths < 8 ? "" : Long.toString(eighths / 8);
    String part = EIGHTHS.get((int) (eighths % 8));
    String spoons = (whole + " " + part).strip();
    return how + spoons + (eighths > 8 ? " level teaspoons" : " level teaspoon");
  }
}
