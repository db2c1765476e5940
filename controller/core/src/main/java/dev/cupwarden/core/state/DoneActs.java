package dev.cupwarden.core.state;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.estimate.Capacity;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What people told of the last day that they may still take back, oldest first, with what was
 * believed before.
 */
public record DoneActs(List<Act> acts) {
  public static final DoneActs NONE = new DoneActs(List.of());

  /** Whoever told something wrong finds out within the day, or has built on it. */
  public static final Duration KEPT = Duration.ofDays(1);

  /** A bench of 24 cups told of twice a day leaves room; the oldest go first. Our choice. */
  private static final int MOST = 100;

  /**
   * One of them; exactly one of {@code weight}, {@code water} and {@code fill} is there.
   *
   * @param orderId the order that told it
   * @param of the cup's or tank's name
   * @param weight what a {@code drained} replaced
   * @param water what a {@code watered} counted
   * @param fill what a {@code filled} told
   */
  public record Act(String orderId, Instant at, String of, Weight weight, Water water, Fill fill) {
    public boolean sameKind(Act other) {
      return of.equals(other.of)
          && (weight == null) == (other.weight == null)
          && (fill == null) == (other.fill == null);
    }
  }

  /**
   * A capacity told anew.
   *
   * @param before what was believed
   * @param driedFrom least depletion since the last refill, by that; NaN before the first
   */
  public record Weight(Capacity before, double driedFrom) {}

  /**
   * Water by hand.
   *
   * @param ecMsPerCm of what was given, {@code waterEcMsPerCm} of plain water
   * @param lastPassAt of the pass or can before; null if there was none
   */
  public record Water(Given given, double ecMsPerCm, double waterEcMsPerCm, Instant lastPassAt) {}

  /**
   * A tank told anew.
   *
   * @param before what it was believed to hold
   * @param ml what was said to be in it
   */
  public record Fill(TankState before, double ml) {}

  public DoneActs drained(String orderId, Instant at, String cup, Weight weight) {
    return plus(new Act(orderId, at, cup, weight, null, null));
  }

  public DoneActs watered(String orderId, Instant at, String cup, Water water) {
    return plus(new Act(orderId, at, cup, null, water, null));
  }

  public DoneActs filled(String orderId, Instant at, String tank, Fill fill) {
    return plus(new Act(orderId, at, tank, null, null, fill));
  }

  private DoneActs plus(Act act) {
    List<Act> next = new ArrayList<>(since(act.at().minus(KEPT)));
    next.add(act);
    return new DoneActs(List.copyOf(next.subList(Math.max(0, next.size() - MOST), next.size())));
  }

  private List<Act> since(Instant oldest) {
    return acts.stream().filter(act -> !act.at().isBefore(oldest)).toList();
  }

  /** What that order told, of one cup or of several; empty where it can no longer be taken back. */
  public List<Act> of(String orderId, Instant now) {
    return since(now.minus(KEPT)).stream().filter(act -> act.orderId().equals(orderId)).toList();
  }

  /** The order that told anew what this one had told; null where none did. */
  public String toldAnew(Act act) {
    List<Act> later = acts.subList(acts.indexOf(act) + 1, acts.size());
    return later.stream()
        .filter(other -> other.sameKind(act) && !other.orderId().equals(act.orderId()))
        .map(Act::orderId)
        .findFirst()
        .orElse(null);
  }

  public DoneActs without(List<Act> taken) {
    return new DoneActs(acts.stream().filter(act -> !taken.contains(act)).toList());
  }

  /** Another vessel, or another cutting: nothing told of that cup before holds of it. */
  public DoneActs withoutCup(String cup) {
    boolean any = acts.stream().anyMatch(act -> act.fill() == null && act.of().equals(cup));
    return any
        ? new DoneActs(
            acts.stream().filter(act -> act.fill() != null || !act.of().equals(cup)).toList())
        : this;
  }
}
