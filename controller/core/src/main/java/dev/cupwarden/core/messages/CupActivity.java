package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a cup is doing, as a grower would say it. */
public enum CupActivity {
  STEADY,
  DUE,
  WATERING,
  SOAKING,
  WET,
  DRY,
  AWAY,
  UNTRUSTED,
  HELD;

  /** The name used in messages. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
