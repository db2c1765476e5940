package dev.cupwarden.core.setup;

import java.util.Arrays;
import java.util.List;

/**
 * A part without which a bench must not be left alone, unless the grower says why it may be ({@code
 * board.without}). That it is wired is all that the program can know; local codes and licensed
 * practice rule.
 */
public enum SafetyPart {
  HEARTBEAT(
      "heartbeat",
      "There is no heartbeat line, so nothing but the program stops a pump that is stuck on: wire a"
          + " pump-run timer (board.heartbeat)"),
  LEAK(
      "leak",
      "There is no leak line, so water beside the cups runs on unseen: wire a leak sensor"
          + " (board.leak)"),
  HOSE(
      "hose",
      "The bench feeds and names no hose: measure what pump head, riser and manifold hold, and give"
          + " it (hose)"),
  TANK_LEVEL(
      "tank-level",
      "Nothing tells when the tank %s is empty, and a pump that sucks air counts as watering: wire a"
          + " float or a scale (board.tanks)"),
  CUT_OUT(
      "cut-out",
      "The heat mat has no high-limit cut-out, so a thermostat that sticks cooks the roots: fit one,"
          + " and give where it ends the heat (board.mat.cut_out)"),
  ROOT_THERMOMETER(
      "root-thermometer",
      "There is a heat mat and no root thermometer, so nobody is told of roots that it cooks: put"
          + " one into a cup (board.root)");

  private final String word;
  private final String missing;

  SafetyPart(String word, String missing) {
    this.word = word;
    this.missing = missing;
  }

  /** As the key below {@code board.without}. */
  public String word() {
    return word;
  }

  /**
   * What its lack means and what to do, without a full stop.
   *
   * @param of whose part it is, where there can be several
   */
  String missing(String of) {
    return missing.formatted(of);
  }

  static List<String> words() {
    return Arrays.stream(values()).map(SafetyPart::word).toList();
  }

  /** The one of that word, which must be one of {@link #words()}. */
  static SafetyPart of(String word) {
    return Arrays.stream(values()).filter(one -> one.word.equals(word)).findFirst().orElseThrow();
  }
}
