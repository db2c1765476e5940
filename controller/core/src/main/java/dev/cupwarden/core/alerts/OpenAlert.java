package dev.cupwarden.core.alerts;

import java.time.Instant;

/**
 * An alert that stands.
 *
 * @param code its name
 * @param cup whose; null for the whole bench
 * @param state {@code warned} or {@code raised}
 * @param since when it first stood
 */
public record OpenAlert(String code, String cup, String state, Instant since) {}
