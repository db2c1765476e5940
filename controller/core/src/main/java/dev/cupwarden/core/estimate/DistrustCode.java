package dev.cupwarden.core.estimate;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.Catalogue;
import java.util.Optional;

/**
 * Every reason for which a weight is not believed and nothing is watered on it, in one table: the
 * alert that tells of it, its unit, and what it says of scale and cup. Its sentence stands in the
 * {@link Catalogue} as {@code limit.untrusted.CODE}.
 */
public enum DistrustCode {
  NEVER_READ("never-read", "", Says.NOTHING),
  SCALE_STUCK(AlertCode.SCALE_STUCK, Says.SCALE_FAILED),
  SCALE_NOISY(AlertCode.SCALE_NOISY, Says.SCALE_FAILED),
  SCALE_OUT_OF_RANGE(AlertCode.SCALE_OUT_OF_RANGE, Says.SCALE_FAILED_OR_LOADED),
  SCALE_SILENT(AlertCode.SCALE_SILENT, Says.SCALE_FAILED),
  SCALE_DRIFTING(AlertCode.SCALE_DRIFTING, Says.SCALE_FAILED),
  CUPS_SWAPPED(AlertCode.CUPS_SWAPPED, Says.ANOTHER_CUP),
  SETTLING("settling", "min", Says.OWN_WEIGHT);

  /** What a reason says of scale and cup. */
  private enum Says {
    /** Nobody knows the cup yet. */
    NOTHING,
    /** The scale is at fault: its cup is blind, and may be watered by what is reckoned of it. */
    SCALE_FAILED,
    /** Likewise, unless a person put something there for the day, or another cup. */
    SCALE_FAILED_OR_LOADED,
    /** What is weighed is another cup. */
    ANOTHER_CUP,
    /** The cup is weighed, and its weight not yet trusted. */
    OWN_WEIGHT
  }

  private final String word;
  private final String unit;

  /** Null where no alert has its name. */
  private final AlertCode alert;

  private final Says says;

  DistrustCode(String word, String unit, Says says) {
    this.word = word;
    this.unit = unit;
    this.alert = null;
    this.says = says;
  }

  DistrustCode(AlertCode alert, Says says) {
    this.word = alert.word();
    this.unit = alert.unit();
    this.alert = alert;
    this.says = says;
  }

  /** Its name on the wire. */
  public String word() {
    return word;
  }

  /** Of value and threshold; empty for pure numbers. */
  public String unit() {
    return unit;
  }

  /** The alert that tells of it by the same name; empty where none does. */
  public Optional<AlertCode> alert() {
    return Optional.ofNullable(alert);
  }

  /** Whether the scale is at fault, and nothing that somebody did with the cup. */
  public boolean scaleFailed() {
    return says == Says.SCALE_FAILED || says == Says.SCALE_FAILED_OR_LOADED;
  }

  /** Whether a person may have put something on the scale: that takes its time. */
  public boolean perhapsLoaded() {
    return says == Says.SCALE_FAILED_OR_LOADED;
  }

  /** Whether what is weighed is the cup itself, only not trusted yet. */
  boolean ownWeight() {
    return says == Says.OWN_WEIGHT;
  }

  /** Whether another cup on the scale would be weighed like that. */
  boolean perhapsAnother() {
    return says == Says.OWN_WEIGHT || says == Says.SCALE_FAILED_OR_LOADED;
  }
}
