package dev.cupwarden.core.messages;

/**
 * Data of an event of kind {@code dose}.
 *
 * @param outcome {@code given}, {@code failed} (what ran before the failure counts as given), or
 *     {@code unknown} (the controller stopped in its midst: counts as fully given)
 */
public record Dose(
    String cup, double plainMl, double feedMl, double strength, String why, String outcome) {}
