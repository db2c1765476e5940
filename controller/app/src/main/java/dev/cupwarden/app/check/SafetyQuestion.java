package dev.cupwarden.app.check;

import java.util.Arrays;
import java.util.List;

/**
 * What no program can see and hardware must be: asked of a person, who answers for it. The reasons
 * stand in the hardware notes; local codes and licensed practice rule.
 */
enum SafetyQuestion {
  VALVES("valves", "Is every valve normally closed, so that without current no water runs?"),
  TIMER(
      "timer",
      "Does a pump-run timer stop the pump within 2 s unless a heartbeat retriggers it, so that a"
          + " line stuck on moves no more than that?"),
  TANK(
      "tank",
      "Is no tank larger than the drip tray below the bench, and none plumbed to the mains?"),
  SUPPLY(
      "supply",
      "Are pump, valves and board on a certified SELV supply of at most 24 V DC (IEC 61558-1)?"),
  RCD(
      "rcd",
      "Is that supply's mains side behind a 30 mA residual-current device (a GFCI in the US)?"),
  DRIP_LOOP(
      "drip-loop", "Do all cables hang in a drip loop, with every connector above the water?"),
  AIR_GAP(
      "air-gap",
      "Is there an air gap where the tank is filled, and a siphon break between tank and cups?");

  private final String word;
  private final String text;

  SafetyQuestion(String word, String text) {
    this.word = word;
    this.text = text;
  }

  /** As an option's value. */
  String word() {
    return word;
  }

  String text() {
    return text;
  }

  static List<String> words() {
    return Arrays.stream(values()).map(SafetyQuestion::word).toList();
  }
}
