package dev.cupwarden.core.watering;

/** Why a cup gets water. */
public enum Cause {
  /** Past its due line. */
  DUE("due"),
  /** It would pass its dry line before the next window. */
  FORECAST("forecast"),
  /** Past its dry line. */
  RESCUE("rescue"),
  /** Its scale is dead: a part of what it used lately. */
  BLIND("forecast"),
  /** A person washes salts out. */
  FLUSH("flush"),
  /** A person asked. */
  ORDER("order");

  private final String word;

  Cause(String word) {
    this.word = word;
  }

  /** The name used in messages. */
  public String word() {
    return word;
  }

  /** Whether a person asked for it. */
  public boolean byHand() {
    return this == FLUSH || this == ORDER;
  }
}
