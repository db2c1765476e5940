package dev.cupwarden.core.messages;

import java.time.Instant;
import java.util.List;
import java.util.SortedMap;

/**
 * What the wire says of the bench as a whole; nulls were not read.
 *
 * @param tankMl mL left by tank, as read or reckoned
 * @param holds cup names under a hold, {@code *} for the whole bench
 * @param tickS seconds from one tick to the next
 * @param version of the controller
 */
public record BenchStatus(
    Instant at,
    Double airC,
    Double rhPct,
    Double rootC,
    Double outdoorC,
    SortedMap<String, Double> tankMl,
    List<String> holds,
    double tickS,
    String version) {}
