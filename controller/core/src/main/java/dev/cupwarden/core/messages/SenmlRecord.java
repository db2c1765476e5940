package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;

/**
 * One record of a SenML pack (RFC 8428); a pack is a JSON array of them.
 *
 * @param baseName {@code <bench>/}, on the first record only
 * @param baseTimeS seconds since 1970-01-01T00:00Z, on the first record only
 * @param name {@code <cup>/mass}, {@code <cup>/theta}, {@code air/temperature}, {@code
 *     air/humidity}, {@code root/temperature}, {@code outdoor/temperature}, {@code light}, {@code
 *     <tank>/volume}
 * @param unit of the IANA registry: {@code g}, {@code /}, {@code Cel}, {@code %RH}, {@code ml}, or
 *     for light our own {@code umol/(m2 s)}
 * @param value in that unit
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record SenmlRecord(
    @JsonProperty("bn") String baseName,
    @JsonProperty("bt") Double baseTimeS,
    @JsonProperty("n") String name,
    @JsonProperty("u") String unit,
    @JsonProperty("v") double value) {}
