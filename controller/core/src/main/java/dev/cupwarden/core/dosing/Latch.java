package dev.cupwarden.core.dosing;

import java.time.Instant;

/**
 * What keeps a part shut until a person has looked.
 *
 * @param code the alert's name: {@value #SHORT}, {@value #ASTRAY}, {@value #RUNNING_ON}, {@value
 *     #SWAPPED}
 * @param since when it fell
 * @param value what was found
 * @param threshold what it was held against
 */
public record Latch(String code, Instant since, double value, double threshold) {
  /** Passes did not come. */
  public static final String SHORT = "dose-short";

  /** Water came to a cup to which none was sent. */
  public static final String ASTRAY = "valve-leaking";

  /** The pump gives what nobody ordered. */
  public static final String RUNNING_ON = "pump-running-on";

  /** Two cups stand in each other's places. */
  public static final String SWAPPED = "cups-swapped";

  public boolean is(String what) {
    return code.equals(what);
  }
}
