package dev.cupwarden.core.limits;

import static dev.cupwarden.core.limits.Limits.Effect.CAP;
import static dev.cupwarden.core.limits.Limits.Effect.VETO;
import static dev.cupwarden.core.limits.Limits.On.FEED;
import static dev.cupwarden.core.limits.Limits.On.WATER;

import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.watering.Cause;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * Every veto and cap, in one table and one order. All are asked, all that hold are reported, the
 * strictest wins.
 */
public final class Limits {
  enum Effect {
    VETO,
    CAP
  }

  enum On {
    WATER,
    FEED
  }

  /**
   * A row of the table.
   *
   * @param clears what ends it
   * @param passedBy causes that go through it
   * @param liftable whether a person may lift it for one dose
   */
  record Row(
      Limit limit, Effect effect, On on, String clears, Set<Cause> passedBy, boolean liftable) {

    /** Feed is held back only from who is to get water. */
    boolean applies(Case.Proposal proposal) {
      return !(on == FEED && proposal.cause() == null)
          && !(proposal.cause() != null && passedBy.contains(proposal.cause()))
          && !(liftable && proposal.lifts().contains(limit.code()));
    }
  }

  /** Less than this is not worth a valve. */
  public static final double LEAST_PASS_ML = 5.0;

  private static final Set<Cause> NOTHING = EnumSet.noneOf(Cause.class);
  private static final Set<Cause> RESCUES = EnumSet.of(Cause.RESCUE, Cause.FED_RESCUE);

  /** Into a jug or to waste, so that nothing reaches a cup. */
  private static final Set<Cause> PAST_CUPS = EnumSet.of(Cause.PRIME, Cause.RINSE);

  /** Limits on what is lifted by cause: columns, so that no limit asks who is asking. */
  static final List<Row> TABLE =
      List.of(
          new Row(new HardwareLimit(), VETO, WATER, "a person looks and clears it", NOTHING, false),
          new Row(new AfterLeakLimit(), VETO, WATER, "a person clears it", RESCUES, false),
          row(new LeakRoomLimit(), CAP, WATER, "ten dry minutes, or a person", NOTHING),
          row(new HoldLimit(false), VETO, WATER, "its end, or a release", NOTHING),
          row(new ClockLimit(), VETO, WATER, "a trusted clock", RESCUES),
          row(new AwayLimit(), VETO, WATER, "the cup is back for ten minutes", NOTHING),
          row(new UntrustedLimit(), VETO, WATER, "ten quiet minutes", EnumSet.of(Cause.BLIND)),
          row(new FrostLimit(), VETO, WATER, "warmer roots and air", NOTHING),
          row(new TooWetLimit(), CAP, WATER, "the cup dries", EnumSet.of(Cause.FLUSH)),
          row(new WetTooLongLimit(), VETO, WATER, "the cup dries", EnumSet.of(Cause.FLUSH)),
          liftable(
              new NoDryBackLimit(),
              VETO,
              "the cup dries back",
              EnumSet.of(Cause.RESCUE, Cause.FED_RESCUE, Cause.BLIND, Cause.FLUSH)),
          row(
              new DayVolumeLimit(),
              CAP,
              WATER,
              "a day passes",
              EnumSet.of(Cause.BLIND, Cause.FLUSH)),
          liftable(new ColdLimit(), VETO, "warmer roots", RESCUES),
          liftable(
              new WindowLimit(),
              VETO,
              "the window opens",
              EnumSet.of(Cause.RESCUE, Cause.FED_RESCUE, Cause.FLUSH)),
          row(new HoseLimit(), VETO, WATER, "plain water has cleared the hose", RESCUES),
          row(new PassLimit(), CAP, WATER, "the next pass", NOTHING),
          row(new SoakLimit(), VETO, WATER, "the soak is over", NOTHING),
          row(new HoldLimit(true), VETO, FEED, "its end, or a release", NOTHING),
          row(new StageLimit(), VETO, FEED, "a person sees toughened roots", NOTHING),
          row(
              new DryRootsLimit(),
              VETO,
              FEED,
              "plain water has gone first",
              EnumSet.of(Cause.FED_RESCUE)),
          row(new LedgerLimit(), CAP, FEED, "the label's interval passes", NOTHING),
          row(new SaltLimit(), VETO, FEED, "a flush, or plain water", NOTHING),
          row(
              new DarkSeasonLimit(),
              VETO,
              FEED,
              "the dark season ends",
              EnumSet.of(Cause.FED_RESCUE)));

  private Limits() {}

  private static Row row(Limit limit, Effect effect, On on, String clears, Set<Cause> passedBy) {
    return new Row(limit, effect, on, clears, pastCupsToo(passedBy), false);
  }

  /** No limit but that of the hardware asks of water that reaches no cup. */
  private static Set<Cause> pastCupsToo(Set<Cause> passedBy) {
    Set<Cause> all = EnumSet.copyOf(PAST_CUPS);
    all.addAll(passedBy);
    return all;
  }

  private static Row liftable(Limit limit, Effect effect, String clears, Set<Cause> passedBy) {
    return new Row(limit, effect, WATER, clears, pastCupsToo(passedBy), true);
  }

  /**
   * What all limits together leave of a pass.
   *
   * @param ml at most; 0 where less than the least pass is left
   * @param strength label strength at most
   * @param holding limits on water that leave less than the least pass, in their order
   * @param feedHolding limits on feed that leave no strength, in their order
   */
  public record Allowance(
      double ml, double strength, List<Reason> holding, List<Reason> feedHolding) {

    /** Whether there may be a pass at all. */
    public boolean water() {
      return holding.isEmpty();
    }
  }

  /** Whether some limit forbids water outright: asked first, since mostly one does. */
  public static boolean forbids(Case pass) {
    for (Row row : TABLE) {
      if (row.on() == WATER && row.applies(pass.proposal())) {
        if (holds(row.limit().rule(pass), pass)) {
          return true;
        }
      }
    }
    return false;
  }

  /** Asks every limit. */
  public static Allowance judge(Case pass) {
    double ml = pass.proposal().wantMl();
    double strength = Double.POSITIVE_INFINITY;
    List<Reason> holding = List.of();
    List<Reason> feedHolding = List.of();
    for (Row row : TABLE) {
      if (!row.applies(pass.proposal())) {
        continue;
      }
      Ruling ruling = row.limit().rule(pass);
      if (ruling.reason() == null) {
        continue;
      }
      if (row.on() == WATER) {
        ml = Math.min(ml, ruling.atMost());
        if (holds(ruling, pass)) {
          holding = plus(holding, ruling.reason());
        }
      } else {
        strength = Math.min(strength, ruling.atMost());
        if (ruling.atMost() <= 0.0) {
          feedHolding = plus(feedHolding, ruling.reason());
        }
      }
    }
    return new Allowance(holding.isEmpty() ? ml : 0.0, strength, holding, feedHolding);
  }

  /**
   * The greatest strength that the limits on feed leave, wanted or not; 0 for a cup without feed.
   */
  static double strongest(Case pass) {
    Case.Proposal proposal = pass.proposal();
    double strength = pass.bench().feeding().ceiling();
    for (Row row : TABLE) {
      boolean lifted = proposal.cause() != null && row.passedBy().contains(proposal.cause());
      if (row.on() == FEED && !lifted) {
        strength = Math.min(strength, row.limit().rule(pass).atMost());
      }
    }
    return strength;
  }

  /** Whether a limit on water leaves less than the least pass. */
  private static boolean holds(Ruling ruling, Case pass) {
    return ruling.reason() != null && ruling.atMost() < pass.proposal().leastMl();
  }

  private static List<Reason> plus(List<Reason> reasons, Reason one) {
    List<Reason> more = reasons.isEmpty() ? new ArrayList<>(4) : reasons;
    more.add(one);
    return more;
  }

  /**
   * The pass that the pump may give. What of earlier passes leaves the shared hose with plain water
   * is {@link HoseLimit}'s to judge.
   *
   * @throws IllegalStateException where the blend goes beyond what the limits left: a defect of
   *     this program, and no water
   */
  public static AllowedPass allow(
      String cup, Cause cause, Allowance allowance, Supply supply, TankDraw draw) {
    boolean within =
        allowance.water()
            && draw.totalMl() > 0.0
            && draw.totalMl() <= allowance.ml() + 1e-9
            && (draw.feedMl() == 0.0 || draw.strength() <= allowance.strength() + 1e-9);
    if (!within) {
      throw new IllegalStateException(
          "cup " + cup + ": " + draw + " goes beyond what the limits left, " + allowance);
    }
    return new AllowedPass(
        cup,
        new AllowedPass.Part(supply.plainTank(), draw.plainMl()),
        new AllowedPass.Part(supply.feedTank(), draw.feedMl()),
        draw.strength(),
        cause.word());
  }
}
