package dev.cupwarden.core.dosing;

/** What a leak sensor says at one moment. */
public enum LeakSensor {
  DRY,
  WET,
  /** It cannot be read: it may be wet. */
  UNREAD
}
