package dev.cupwarden.board;

import java.util.Collections;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What the bench's sensors said in one scan.
 *
 * @param massG gross grams by cup; a cup whose scale could not be read is missing
 * @param airC air temperature, °C
 * @param rhPct relative humidity, percent
 * @param rootC root-zone temperature, °C
 * @param outdoorC air temperature where cups are carried out to, °C
 * @param theta water in the mix, volume fraction, by cup with a probe
 * @param tankMl what is left, by tank that is weighed; 0 by tank whose float has fallen
 * @param tankAtLeastMl what is left at least, by tank whose float is up
 * @param leak water where none belongs, now or at any look since the last scan
 * @param faults what could not be read and why, one sentence each, by part (a scale's name, {@code
 *     air}, {@link #OUTPUTS})
 */
public record BoardReadings(
    SortedMap<String, Double> massG,
    OptionalDouble airC,
    OptionalDouble rhPct,
    OptionalDouble rootC,
    OptionalDouble outdoorC,
    SortedMap<String, Double> theta,
    SortedMap<String, Double> tankMl,
    SortedMap<String, Double> tankAtLeastMl,
    boolean leak,
    SortedMap<String, String> faults) {
  /** The part of outputs that do not answer, with the pump surely off. */
  public static final String OUTPUTS = "outputs";

  /** The part of a pump that may be on. */
  public static final String PUMP = "pump";

  /** The part of a leak sensor that cannot be read. */
  public static final String LEAK = "leak";

  public BoardReadings {
    theta = Collections.unmodifiableSortedMap(new TreeMap<>(theta));
    tankMl = Collections.unmodifiableSortedMap(new TreeMap<>(tankMl));
    tankAtLeastMl = Collections.unmodifiableSortedMap(new TreeMap<>(tankAtLeastMl));
    massG = Collections.unmodifiableSortedMap(new TreeMap<>(massG));
    faults = Collections.unmodifiableSortedMap(new TreeMap<>(faults));
  }

  /** The same with what else is wrong. */
  BoardReadings withFault(String part, String sentence) {
    SortedMap<String, String> all = new TreeMap<>(faults);
    all.put(part, sentence);
    return new BoardReadings(
        massG, airC, rhPct, rootC, outdoorC, theta, tankMl, tankAtLeastMl, leak, all);
  }
}
