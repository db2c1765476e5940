package dev.cupwarden.core;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import java.util.HashMap;
import java.util.Map;

/**
 * The frames of a bench's cups, each worked out once: integrating a curve at every tick is waste.
 */
final class CupFrames {
  private final Bench bench;
  private final Map<Cup, CupFrame> known = new HashMap<>();

  CupFrames(Bench bench) {
    this.bench = bench;
  }

  /**
   * @throws IllegalArgumentException where the cup's vessel, mix and lines do not go together
   */
  CupFrame of(Cup cup) {
    return known.computeIfAbsent(cup, c -> CupFrame.of(bench, c));
  }
}
