package dev.cupwarden.core.setup;

import java.util.Optional;

/**
 * A vessel that the pump draws from.
 *
 * @param name the grower's name for it
 * @param sizeMl what it holds when full
 * @param feed name of the feed mixed into it, none for plain water
 * @param strength label strength of what is in it; 0 for plain water
 */
public record Tank(String name, double sizeMl, Optional<String> feed, double strength) {}
