package dev.cupwarden.app.clock;

import dev.cupwarden.app.ProgramVersion;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;

/** What is known of a machine's wall clock besides what it shows. */
public interface ClockEvidence {
  /** No more than that no clock is right that shows a year before this program's. */
  ClockEvidence NOTHING = new ClockEvidence() {};

  /** The first moment that a clock may show; before it, it is none. */
  default Instant notBefore() {
    int year = ProgramVersion.built().atOffset(ZoneOffset.UTC).getYear();
    return LocalDate.of(year, 1, 1).atStartOfDay().toInstant(ZoneOffset.UTC);
  }

  /** Whether a time source was heard since the machine was started, and the clock set by it. */
  default boolean synchronised() {
    return false;
  }

  /**
   * Whether a clock chip that the bench file names went on through the time in which nothing ran,
   * and shows what the wall clock does, within what it may have drifted.
   *
   * @param last when the program was last seen running
   */
  default boolean chipAgrees(Instant wall, Instant last) {
    return false;
  }
}
