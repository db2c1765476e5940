package dev.cupwarden.core.state;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.feeding.WateringHabit;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What a cup was given. It stays given, whatever a grower edits.
 *
 * @param given what counts as given within the longest label interval, oldest first
 * @param lastPassAt of the last pass or can; null if there was none
 * @param unlookedMl ordered since the last look at its scale
 * @param habit how it is usually watered
 * @param salts what is left of the salts in it
 */
public record Doses(
    List<Given> given,
    Instant lastPassAt,
    double unlookedMl,
    WateringHabit habit,
    SaltBalance salts) {
  public static final Doses NONE =
      new Doses(List.of(), null, 0.0, WateringHabit.NONE, SaltBalance.NONE);

  /**
   * With that given as well.
   *
   * @param forgottenBefore what was given by then no ledger asks for
   * @param readAt what was given since then is kept all the same, as its weight has not shown it;
   *     null if its weight was never read
   */
  public Doses plus(Given one, SaltBalance after, Instant forgottenBefore, Instant readAt) {
    List<Given> next = new ArrayList<>(given.size() + 1);
    for (Given before : given) {
      boolean unseen = readAt != null && !before.at().isBefore(readAt);
      if (before.at().isAfter(forgottenBefore) || unseen) {
        next.add(before);
      }
    }
    next.add(one);
    return new Doses(List.copyOf(next), one.at(), unlookedMl + one.ml(), habit, after);
  }

  /**
   * Without what a person told by mistake.
   *
   * @param passBefore when the one before it was; null if there was none
   */
  public Doses minus(Given told, SaltBalance after, Instant passBefore) {
    List<Given> left = new ArrayList<>(given);
    int last = left.lastIndexOf(told);
    if (last >= 0) {
      left.remove(last);
    }
    return new Doses(
        List.copyOf(left),
        told.at().equals(lastPassAt) ? passBefore : lastPassAt,
        Math.max(0.0, unlookedMl - told.ml()),
        habit,
        after);
  }

  /**
   * Of its last passes only a part stayed in the mix: so much of their feed counts.
   *
   * @param passes how many
   * @param part 0 to 1
   */
  public Doses stayed(int passes, double part) {
    List<Given> next = new ArrayList<>(given);
    int left = passes;
    for (int i = next.size() - 1; i >= 0 && left > 0; i--) {
      if (!next.get(i).byHand()) {
        next.set(i, next.get(i).stayed(part));
        left--;
      }
    }
    return new Doses(List.copyOf(next), lastPassAt, unlookedMl, habit, salts);
  }

  /** Its scale was looked at. */
  public Doses looked() {
    return unlookedMl == 0.0 ? this : new Doses(given, lastPassAt, 0.0, habit, salts);
  }

  public Doses with(WateringHabit next) {
    return new Doses(given, lastPassAt, unlookedMl, next, salts);
  }

  public Doses with(SaltBalance next) {
    return new Doses(given, lastPassAt, unlookedMl, habit, next);
  }
}
