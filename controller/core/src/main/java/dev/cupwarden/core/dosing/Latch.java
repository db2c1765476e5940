package dev.cupwarden.core.dosing;

import java.time.Instant;

/**
 * What keeps a part shut until a person has looked.
 *
 * @param code the alert's name: {@code dose-short}, {@code valve-leaking}, {@code pump-running-on}
 * @param since when it fell
 * @param value what was found
 * @param threshold what it was held against
 */
public record Latch(String code, Instant since, double value, double threshold) {}
