package dev.cupwarden.core.watering;

import dev.cupwarden.core.dosing.Given;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/**
 * How much water a cup may take, so that none is watered without end: a fifth more than there was
 * room for, or than it lost. Water counts as the pump truly gives it. All figures are our choice.
 */
public final class VolumeBounds {
  private static final double A_FIFTH_MORE = 1.2;

  /** Of its room a rescue has so much, however little the cup lost. */
  public static final double HALF = 0.5;

  private static final Duration DAY = Duration.ofHours(24);

  /** A cup whose passes hardly show is ordered no more than a third more, as by a slow pump. */
  private static final double LEAST_OWN_PART = 0.75;

  private VolumeBounds() {}

  /**
   * What part of an order counts for that cup: as the pump gives it, less where its own weight
   * shows less, behind a half-clogged dripper or in a mix that lets water run through.
   */
  private static double ownPart(WaterAccount cup, double pumpPart) {
    double own = cup.rises().known() ? cup.rises().part() : pumpPart;
    return Math.max(LEAST_OWN_PART, Math.min(pumpPart, own));
  }

  /**
   * One bound.
   *
   * @param givenMl counted against it
   * @param mostMl that it allows; infinite where it says nothing
   * @param detail which bound it is, as reasons name it; "" of the last 24 h
   * @param part of an order that counts
   */
  public record Bound(double givenMl, double mostMl, String detail, double part) {
    /** What it leaves to be ordered, mL, 0 or more. */
    public double leftMl() {
      return Math.max(0.0, mostMl - givenMl) / part;
    }

    private boolean tighterThan(Bound other) {
      return leftMl() < other.leftMl();
    }
  }

  /** In 24 h and since the cup was last full, the tighter of the two. */
  public static Bound usual(Instant at, List<Given> given, WaterAccount cup, double pumpPart) {
    Bound day = inDay(at, given, cup, ownPart(cup, pumpPart));
    Bound full = sinceFull(cup, pumpPart);
    return full.tighterThan(day) ? full : day;
  }

  /**
   * Half of the room, once in 24 h.
   *
   * @param roomMl to the refill line now
   */
  public static Bound half(
      Instant at, List<Given> given, WaterAccount cup, double pumpPart, double roomMl) {
    double part = ownPart(cup, pumpPart);
    if (!cup.half().begun(at)) {
      return new Bound(0.0, HALF * roomMl, "half-room", part);
    }
    double givenMl = 0.0;
    for (int i = given.size() - 1; i >= 0 && !given.get(i).at().isBefore(cup.half().at()); i--) {
      givenMl += counted(given.get(i), part);
    }
    return new Bound(givenMl, cup.half().ml(), "half-room", part);
  }

  private static Bound inDay(Instant at, List<Given> given, WaterAccount cup, double part) {
    Instant dayAgo = at.minus(DAY);
    double roomMl = Double.NaN;
    double givenMl = 0.0;
    for (int i = given.size() - 1; i >= 0 && given.get(i).at().isAfter(dayAgo); i--) {
      roomMl = given.get(i).roomMl();
      givenMl += counted(given.get(i), part);
    }
    double mostMl =
        Double.isNaN(roomMl)
            ? Double.POSITIVE_INFINITY
            : A_FIFTH_MORE * Math.max(roomMl, cup.losses().lostInDayG(at));
    return new Bound(givenMl, mostMl, "", part);
  }

  private static Bound sinceFull(WaterAccount cup, double pumpPart) {
    SinceFull full = cup.full();
    if (full == null) {
      return new Bound(0.0, Double.POSITIVE_INFINITY, "since-full", pumpPart);
    }
    return new Bound(
        pumpPart * full.pumpedMl() + full.pouredMl(),
        A_FIFTH_MORE * (full.countedG() + full.roomMl()),
        "since-full",
        pumpPart);
  }

  private static double counted(Given one, double part) {
    return one.byHand() ? one.ml() : part * one.ml();
  }
}
