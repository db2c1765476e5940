package dev.cupwarden.core.state;

import dev.cupwarden.core.estimate.SwapDetector;
import java.time.Instant;
import java.util.List;

/**
 * What cups are held against one another by.
 *
 * @param rootsAt when their use was last compared; null before
 * @param steps of weight that may turn out to be half of a swap
 */
public record CupsCompared(Instant rootsAt, List<SwapDetector.Step> steps) {
  public static final CupsCompared NONE = new CupsCompared(null, List.of());
}
