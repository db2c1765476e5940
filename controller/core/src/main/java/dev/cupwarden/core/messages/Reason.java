package dev.cupwarden.core.messages;

/**
 * Why something is or is not done, in numbers; {@link Sentences} makes words of it at the edge.
 *
 * @param code a limit's or a cause's name
 * @param value what was found
 * @param threshold what it was held against
 * @param unit of both, "" for pure numbers
 */
public record Reason(String code, double value, double threshold, String unit) {}
