package dev.cupwarden.core.state;

import dev.cupwarden.core.dosing.Hose;
import java.time.Instant;
import java.util.Collections;
import java.util.SortedMap;

/**
 * The plumbing that all cups share, from one tick to the next.
 *
 * @param content what stands in it; null: not known, as with a state of a program that knew none
 * @param strongest the strongest that stood in it when the last passes began, or came in with them
 * @param waiting cups that wait for the hose alone, since when
 * @param owedMl by cup, label-equivalents (mL at label strength) that it was meant to get and has
 *     not got; below 0: got beyond
 * @param priming a person's order that is under way; null where there is none
 * @param told the last pass that brought a cup more than it should have; null where there was none
 */
public record HoseState(
    Hose content,
    Hose.Slug strongest,
    SortedMap<String, Instant> waiting,
    SortedMap<String, Double> owedMl,
    Priming priming,
    Carried told) {
  /** Nothing known of it. */
  public static final HoseState NONE =
      new HoseState(
          null, null, Collections.emptySortedMap(), Collections.emptySortedMap(), null, null);

  /**
   * Water into a jug.
   *
   * @param tank where it comes from
   * @param leftMl still to come
   * @param givenMl what came
   */
  public record Priming(String orderId, String cup, String tank, double leftMl, double givenMl) {}

  /** What a cup got out of the hose that it should not have. */
  public record Carried(Instant at, String cup, double nMgPerL) {}

  public HoseState with(Hose other) {
    return new HoseState(other, strongest, waiting, owedMl, priming, told);
  }
}
