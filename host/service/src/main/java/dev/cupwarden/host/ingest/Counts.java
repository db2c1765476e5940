package dev.cupwarden.host.ingest;

/**
 * What came in since the host started.
 *
 * @param messages all, whatever they were
 * @param readings single values stored or already there
 * @param malformed set aside
 * @param doubles events that were there already
 * @param passedOver events that were numbered but never came, given up
 */
public record Counts(long messages, long readings, long malformed, long doubles, long passedOver) {
  public static final Counts NONE = new Counts(0, 0, 0, 0, 0);

  Counts plus(Counts more) {
    return new Counts(
        messages + more.messages,
        readings + more.readings,
        malformed + more.malformed,
        doubles + more.doubles,
        passedOver + more.passedOver);
  }
}
