package dev.cupwarden.core.alerts;

/** What an alert is of, as a part of its key: a cup, a tank or the whole bench. */
final class Subject {
  /** No cup's name has a colon. */
  private static final String TANK = "tank:";

  private Subject() {}

  /** Empty for the whole bench. */
  static String of(String cup, String tank) {
    return cup != null ? cup : tank != null ? TANK + tank : "";
  }

  /** The key under which an alert of it stands. */
  static String key(String code, String cup, String tank) {
    return cup == null && tank == null ? code : code + "/" + of(cup, tank);
  }
}
