package dev.cupwarden.core.messages;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;

/**
 * What was read and asked at one moment: one input line of {@code advise}, or one tick of a bench.
 * One part for each field of {@code advise-in.schema.json}.
 *
 * @param at when, later than the observation before
 * @param airC air temperature, °C
 * @param rhPct relative humidity, percent
 * @param rootC root-zone temperature, °C
 * @param outdoorC air temperature where cups are carried out to, °C
 * @param lightUmolPerM2S photon flux, µmol m⁻² s⁻¹
 * @param massG gross grams as each scale shows them, by cup; a cup that is missing was not read
 * @param theta water, volume fraction, by cup with a moisture probe
 * @param tankMl mL left, by tank
 * @param leak water where none belongs
 * @param leakUnread whether the sensor for that cannot be read, so that there may be some
 * @param clockInDoubt whether {@code at} may be far from the true time
 * @param orders what a person asked, each still as it was written
 * @param hoseInDoubt a pass since the observation before may not have run as it was counted
 * @param boardFault whether an output does not answer, or a pass since the observation before
 *     failed: nothing can be pumped, and what was not given need not arrive
 * @param watchOnly whether the bench is only watched: what it would be given is told, and a person
 *     waters
 */
public record Observation(
    Instant at,
    OptionalDouble airC,
    OptionalDouble rhPct,
    OptionalDouble rootC,
    OptionalDouble outdoorC,
    OptionalDouble lightUmolPerM2S,
    SortedMap<String, Double> massG,
    SortedMap<String, Double> theta,
    SortedMap<String, Double> tankMl,
    boolean leak,
    boolean leakUnread,
    boolean clockInDoubt,
    List<JsonNode> orders,
    boolean hoseInDoubt,
    boolean boardFault,
    boolean watchOnly) {

  /** Without a thermometer outdoors. */
  public Observation(
      Instant at,
      OptionalDouble airC,
      OptionalDouble rhPct,
      OptionalDouble rootC,
      OptionalDouble lightUmolPerM2S,
      SortedMap<String, Double> massG,
      SortedMap<String, Double> theta,
      SortedMap<String, Double> tankMl,
      boolean leak,
      boolean leakUnread,
      boolean clockInDoubt,
      List<JsonNode> orders,
      boolean hoseInDoubt,
      boolean boardFault,
      boolean watchOnly) {
    this(
        at,
        airC,
        rhPct,
        rootC,
        OptionalDouble.empty(),
        lightUmolPerM2S,
        massG,
        theta,
        tankMl,
        leak,
        leakUnread,
        clockInDoubt,
        orders,
        hoseInDoubt,
        boardFault,
        watchOnly);
  }

  /** With every pass run as it was counted. */
  public Observation(
      Instant at,
      OptionalDouble airC,
      OptionalDouble rhPct,
      OptionalDouble rootC,
      OptionalDouble lightUmolPerM2S,
      SortedMap<String, Double> massG,
      SortedMap<String, Double> theta,
      SortedMap<String, Double> tankMl,
      boolean leak,
      boolean leakUnread,
      boolean clockInDoubt,
      List<JsonNode> orders) {
    this(
        at,
        airC,
        rhPct,
        rootC,
        lightUmolPerM2S,
        massG,
        theta,
        tankMl,
        leak,
        leakUnread,
        clockInDoubt,
        orders,
        false,
        false,
        false);
  }
}
