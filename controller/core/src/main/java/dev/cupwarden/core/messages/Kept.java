package dev.cupwarden.core.messages;

/** The host's word that it has stored all events of an epoch up to a number, without a gap. */
public record Kept(String epoch, long seq) {}
