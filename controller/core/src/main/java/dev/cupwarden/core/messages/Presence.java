package dev.cupwarden.core.messages;

import java.time.Instant;

/** Whether a controller is there: {@code online} or {@code offline}, and since when. */
public record Presence(String state, Instant since) {}
