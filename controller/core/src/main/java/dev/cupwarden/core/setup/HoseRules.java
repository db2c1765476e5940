package dev.cupwarden.core.setup;

import java.util.Optional;

/**
 * The plumbing that all cups share, from where tanks join to where the ways to the cups part.
 *
 * @param volumeMl what it holds, 0 or more
 * @param told whether the bench file says so; what it does not say counts as 0
 * @param drain a valve that leads to waste; none where there is none
 */
public record HoseRules(double volumeMl, boolean told, Optional<String> drain) {
  /** Nothing shared, and nothing said. */
  public static final HoseRules NONE = new HoseRules(0.0, false, Optional.empty());
}
