package dev.cupwarden.core.plants;

import java.util.List;

/**
 * Where the facts of a plant come from: author, year, title and address, {@link #COMMON_PRACTICE},
 * or both.
 *
 * @param lines of how wet or dry it roots
 * @param warmth of the temperature wanted at the roots
 * @param days of the days to roots, their warmth and its base
 * @param shoots of whether it shoots first
 */
public record PlantSources(String lines, String warmth, String days, String shoots) {
  /** Of what growers just know. */
  public static final String COMMON_PRACTICE = "common practice";

  /** Of what a grower wrote without saying why. */
  public static final PlantSources BENCH_FILE =
      new PlantSources("the bench file", "the bench file", "the bench file", "the bench file");

  /** All four. */
  public List<String> all() {
    return List.of(lines, warmth, days, shoots);
  }
}
