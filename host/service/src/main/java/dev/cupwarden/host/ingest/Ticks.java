package dev.cupwarden.host.ingest;

import java.time.Instant;
import java.util.HashMap;
import java.util.Map;

/**
 * Of which tick each bench has told last in its status. A controller that only connects anew tells
 * the same once more.
 */
final class Ticks {
  private final Map<String, Instant> last = new HashMap<>();

  /** Whether that is another than the last one told of; from now on it is the last. */
  boolean isAnother(String bench, Instant at) {
    return !at.equals(last.put(bench, at));
  }
}
