package dev.cupwarden.core.limits;

import static dev.cupwarden.core.limits.LimitCode.On.FEED;
import static dev.cupwarden.core.limits.LimitCode.On.WATER;

import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.watering.Cause;
import java.util.ArrayList;
import java.util.List;

/**
 * Asks the table of {@link LimitCode} about a pass. All rows are asked, all that hold are reported,
 * the strictest wins.
 */
public final class Limits {
  /** Less than this is not worth a valve. */
  public static final double LEAST_PASS_ML = 5.0;

  private static final LimitCode[] TABLE = LimitCode.values();

  private Limits() {}

  /**
   * What all limits together leave of a pass.
   *
   * @param ml at most; 0 where less than the least pass is left
   * @param strength label strength at most
   * @param holding limits on water that leave less than the least pass, in their order
   * @param feedHolding limits on feed that leave no strength, in their order
   * @param strengthBy the limit that leaves that strength; null where none does
   */
  public record Allowance(
      double ml,
      double strength,
      List<Reason> holding,
      List<Reason> feedHolding,
      Reason strengthBy) {

    /** Whether there may be a pass at all. */
    public boolean water() {
      return holding.isEmpty();
    }
  }

  /** Whether some limit forbids water outright: asked first, since mostly one does. */
  public static boolean forbids(Case pass) {
    for (LimitCode code : TABLE) {
      if (code.on() == WATER && code.rule(pass).atMost() < pass.proposal().leastMl()) {
        return true;
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
    Reason strengthBy = null;
    for (LimitCode code : TABLE) {
      // Feed is held back only from who is to get water.
      if (code.on() == FEED && pass.proposal().cause() == null) {
        continue;
      }
      Ruling ruling = code.rule(pass);
      if (ruling.free()) {
        continue;
      }
      if (code.on() == WATER) {
        ml = Math.min(ml, ruling.atMost());
        if (ruling.atMost() < pass.proposal().leastMl()) {
          holding = plus(holding, code.reason(ruling));
        }
      } else {
        if (ruling.atMost() < strength) {
          strength = ruling.atMost();
          strengthBy = code.reason(ruling);
        }
        if (ruling.atMost() <= 0.0) {
          feedHolding = plus(feedHolding, code.reason(ruling));
        }
      }
    }
    return new Allowance(holding.isEmpty() ? ml : 0.0, strength, holding, feedHolding, strengthBy);
  }

  /**
   * What the caps on water leave of a pass, vetoes apart, mL; 0 where less than the least is left.
   */
  public static double capMl(Case pass) {
    double ml = pass.proposal().wantMl();
    for (LimitCode code : TABLE) {
      if (code.on() == WATER) {
        ml = Math.min(ml, code.capMl(pass));
      }
    }
    return ml < pass.proposal().leastMl() ? 0.0 : ml;
  }

  /**
   * The greatest strength that the limits on feed leave, wanted or not; 0 for a cup without feed.
   */
  static double strongest(Case pass) {
    double strength = pass.bench().feeding().ceiling();
    for (LimitCode code : TABLE) {
      if (code.on() == FEED) {
        strength = Math.min(strength, code.rule(pass).atMost());
      }
    }
    return strength;
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
