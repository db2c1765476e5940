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
 * @param leak water where none belongs
 * @param faults what could not be read and why, one sentence each, by part (a scale's name, {@code
 *     air})
 */
public record BoardReadings(
    SortedMap<String, Double> massG,
    OptionalDouble airC,
    OptionalDouble rhPct,
    OptionalDouble rootC,
    boolean leak,
    SortedMap<String, String> faults) {
  public BoardReadings {
    massG = Collections.unmodifiableSortedMap(new TreeMap<>(massG));
    faults = Collections.unmodifiableSortedMap(new TreeMap<>(faults));
  }
}
