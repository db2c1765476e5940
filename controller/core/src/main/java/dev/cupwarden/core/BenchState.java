package dev.cupwarden.core;

import java.time.Instant;

/** The whole state of a bench as one immutable value; it survives a restart as JSON. */
public record BenchState(Instant at) {}
