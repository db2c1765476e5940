package dev.cupwarden.core.state;

import dev.cupwarden.core.estimate.SwapDetector;
import java.time.Instant;
import java.util.List;

/**
 * What cups are held against one another by.
 *
 * @param rootsAt when their use was last compared; null before
 * @param steps of weight that may turn out to be half of a swap
 * @param pumpOffSince since when they have gained more or less than was ordered; null while they
 *     agree, and in an older journal
 */
public record CupsCompared(Instant rootsAt, List<SwapDetector.Step> steps, Instant pumpOffSince) {
  public static final CupsCompared NONE = new CupsCompared(null, List.of(), null);
}
