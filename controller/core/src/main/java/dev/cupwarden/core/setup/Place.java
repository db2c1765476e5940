package dev.cupwarden.core.setup;

import java.time.ZoneId;

/**
 * Where the bench stands.
 *
 * @param latitudeDeg north positive, -90 to 90
 * @param longitudeDeg east positive, -180 to 180
 * @param zone the zone that the grower's clock shows
 */
public record Place(double latitudeDeg, double longitudeDeg, ZoneId zone) {}
