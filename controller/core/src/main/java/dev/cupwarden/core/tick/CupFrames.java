package dev.cupwarden.core.tick;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import java.util.HashMap;
import java.util.Map;

/**
 * The frames of a bench's cups, each worked out once: integrating a curve at every tick is waste.
 */
final class CupFrames {
  private final Bench bench;
  private final Map<String, Known> known = new HashMap<>();

  private record Known(Cup cup, CupFrame frame) {}

  CupFrames(Bench bench) {
    this.bench = bench;
  }

  /**
   * @throws IllegalArgumentException where the cup's vessel, mix and lines do not go together
   */
  CupFrame of(Cup cup) {
    Known last = known.get(cup.name());
    if (last != null && last.cup().equals(cup)) {
      return last.frame();
    }
    CupFrame frame = CupFrame.of(bench, cup);
    known.put(cup.name(), new Known(cup, frame));
    return frame;
  }
}
