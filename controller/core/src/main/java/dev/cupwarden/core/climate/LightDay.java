package dev.cupwarden.core.climate;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;

/**
 * The light of today so far, and of the last whole day.
 *
 * @param day today; null before the first reading
 * @param begun whether today was seen from its beginning
 * @param today so far
 * @param lastMolPerM2 of the last day that was seen from end to end, mol per m2; NaN before
 */
public record LightDay(LocalDate day, boolean begun, LightSum today, double lastMolPerM2) {
  public static final LightDay NONE = new LightDay(null, false, LightSum.NONE, Double.NaN);

  /** Between readings further apart nobody knows the light, nor that of the day: our choice. */
  private static final Duration LONGEST_GAP = Duration.ofHours(2);

  /**
   * With one more reading, not older than the last.
   *
   * @param on the day at the bench
   * @param umolPerM2S 0 to 5000 µmol per m2 and s
   */
  public LightDay plus(Instant at, LocalDate on, double umolPerM2S) {
    LightSum.LightAt reading = new LightSum.LightAt(at, umolPerM2S);
    if (on.equals(day)) {
      return new LightDay(day, begun, today.plus(reading, LONGEST_GAP), lastMolPerM2);
    }
    boolean nextDay = day != null && on.equals(day.plusDays(1));
    LightSum over = nextDay ? today.plus(reading, LONGEST_GAP) : LightSum.NONE;
    boolean whole = nextDay && begun && over.missed().isZero();
    return new LightDay(
        on,
        nextDay && over.missed().equals(today.missed()),
        LightSum.NONE.plus(reading, LONGEST_GAP),
        whole ? over.molPerM2() : lastMolPerM2);
  }
}
