package dev.cupwarden.core.setup;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What a person saw of a cutting's roots through the wall of its cup, in the order of growth. */
public enum RootStage {
  /** No roots. */
  STRUCK,
  /** Fine white roots at the wall: too tender for feed (common practice). */
  WHITE,
  /** Roots tanned and thicker: feed begins. */
  TOUGHENED,
  /** Roots run round the wall. */
  CIRCLING;

  /** Whether roots of this stage can take feed at all (common practice). */
  public boolean takesFeed() {
    return this == TOUGHENED || this == CIRCLING;
  }

  /** Whether there are roots to be kept from drying. */
  public boolean rooted() {
    return this != STRUCK;
  }

  /** The name used in bench files and messages. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The names of all stages in the order of growth. */
  public static List<String> words() {
    return Arrays.stream(values()).map(RootStage::word).toList();
  }

  /** The stage of that name, if there is one. */
  public static Optional<RootStage> of(String word) {
    return Arrays.stream(values()).filter(stage -> stage.word().equals(word)).findFirst();
  }

  @JsonCreator
  static RootStage parse(String word) {
    return of(word)
        .orElseThrow(() -> new IllegalArgumentException("\"" + word + "\" is not a root stage"));
  }
}
