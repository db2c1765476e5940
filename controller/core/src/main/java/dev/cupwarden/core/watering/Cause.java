package dev.cupwarden.core.watering;

/** Why a cup gets water. */
public enum Cause {
  /** Past its due line. */
  DUE("due"),
  /** Past its dry line, and no plain water is to be had: weak feed, for a cup that may have it. */
  FED_RESCUE("rescue"),
  /** It would pass its dry line before the next window. */
  FORECAST("forecast"),
  /** Past its dry line. */
  RESCUE("rescue"),
  /** Its scale is dead: a part of what it used lately. */
  BLIND("blind"),
  /** A person washes salts out. */
  FLUSH("flush"),
  /** A person asked. */
  ORDER("order"),
  /** A person fills or clears the shared hose into a jug. */
  PRIME("order"),
  /** What the shared hose holds is pushed out through the waste valve. */
  RINSE("flush");

  private final String word;

  Cause(String word) {
    this.word = word;
  }

  /** The name used in messages. */
  public String word() {
    return word;
  }

  /** Whether the cup is past its dry line. */
  public boolean rescue() {
    return this == RESCUE || this == FED_RESCUE;
  }

  /** Whether a person asked for it. */
  public boolean byHand() {
    return this == FLUSH || this == ORDER;
  }
}
