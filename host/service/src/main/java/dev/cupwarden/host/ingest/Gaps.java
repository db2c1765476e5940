package dev.cupwarden.host.ingest;

import dev.cupwarden.host.ingest.Batch.Journal;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;

/**
 * Decides when numbers missing from a journal will never come: the host lost what the bench had
 * already let go, or the bench dropped what no host had kept.
 *
 * <p>A bench tells again, in order and from its mark, all that is not kept. So numbers are hopeless
 * once they have been missing for a quarter of an hour of this host's own watching and the bench
 * has after that told again one that lies beyond them. Mere time proves nothing: bench and broker
 * may have been away.
 */
final class Gaps {
  static final Duration PATIENCE = Duration.ofMinutes(15);

  /** Up to where numbers were missing, and since when. */
  private record Open(long below, Instant since) {}

  private final Map<Journal, Open> open = new HashMap<>();

  /**
   * Looks at a journal of which something has come.
   *
   * @param isGap whether numbers are missing before some that are there
   * @param highest the highest number stored
   * @param toldAgain the highest number that has just come again, 0 for none
   * @return what is missing below this number is hopeless; 0 for nothing
   */
  long hopelessBelow(Journal journal, boolean isGap, long highest, long toldAgain, Instant now) {
    if (!isGap) {
      open.remove(journal);
      return 0;
    }
    Open gap = open.computeIfAbsent(journal, each -> new Open(highest, now));
    if (toldAgain == 0 || now.isBefore(gap.since().plus(PATIENCE))) {
      return 0;
    }
    open.remove(journal);
    return Math.min(gap.below(), toldAgain);
  }
}
