package dev.cupwarden.core.tick;

import dev.cupwarden.core.climate.DryingPower;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.units.MiddleValue;
import dev.cupwarden.core.watering.LossLog;
import dev.cupwarden.core.watering.UseLog;
import dev.cupwarden.core.watering.WatchDrift;
import dev.cupwarden.core.watering.WaterAccount;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** Keeps each cup's account of water: what its weight fell by, and whether that can be. */
final class AccountWater {
  /** Where the air is not known it is taken as ever the same. */
  private static final double UNKNOWN_AIR_KPA = 1.0;

  /** Fewer cups say nothing of air and light. */
  private static final int LEAST_CUPS = 4;

  void account(BenchDraft draft) {
    double vpdKpa = draft.vpdKpa();
    double driveKpa = Double.isNaN(vpdKpa) ? UNKNOWN_AIR_KPA : DryingPower.kpa(vpdKpa);
    List<CupDraft> over = new ArrayList<>();
    for (CupDraft cup : draft.cups.values()) {
      if (cup.account.drift().told()) {
        reckon(draft.at, cup, driveKpa);
      } else if (cup.now.trusted() && !cup.presence.away() && !Double.isNaN(cup.readG)) {
        boolean slotEnds = cup.account.losses().slotEnds(draft.at);
        see(draft, cup, driveKpa);
        if (slotEnds) {
          over.add(cup);
        }
      } else if (cup.reckoned() && draft.before.at() != null) {
        double hours = Elapsed.hours(draft.before.at(), draft.at);
        double lostG = hours * cup.weight.reckoning().water().rateGPerH();
        cup.account = cup.account.unweighed(draft.at, lostG);
      }
    }
    if (!over.isEmpty()) {
      judge(draft, over);
    }
    draft.cups.values().forEach(cup -> doubt(draft.at, cup));
  }

  private static void see(BenchDraft draft, CupDraft cup, double driveKpa) {
    WaterAccount was = cup.account;
    double massG = cup.now.massG();
    double hours = was.seenAt() == null ? 0.0 : Elapsed.hours(was.seenAt(), draft.at);
    double foretoldG = was.foretoldG(hours, driveKpa, cup.predictedGPerH());
    boolean seen = hours <= UseLog.LONGEST_GAP_H;
    double lostG = was.seenAt() == null ? 0.0 : lostG(cup, was.seenG() - massG, hours, foretoldG);
    double lightH = hours * AirState.valueOf(draft.air.light());
    LossLog.Slot lost =
        new LossLog.Slot(
            draft.at,
            lostG,
            foretoldG,
            seen ? lostG : 0.0,
            seen ? hours : 0.0,
            seen ? hours * driveKpa : 0.0,
            seen ? lightH : 0.0);
    cup.account = was.seen(draft.at, massG, lost);
  }

  /**
   * What dried of a cup since its last weight, by that weight where it shows nothing else.
   *
   * @param fellG by how much the weight is less
   */
  private static double lostG(CupDraft cup, double fellG, double hours, double foretoldG) {
    boolean rose = false;
    for (WeightEvent event : cup.events) {
      rose |= event instanceof WeightEvent.OwnDose || event instanceof WeightEvent.HandWatering;
    }
    if (hours > UseLog.LONGEST_GAP_H) {
      double mostG = WaterAccount.MOST_TIMES * foretoldG;
      return rose ? foretoldG : Math.max(0.0, Math.min(mostG, fellG));
    }
    double ratedG = cup.now.rateGPerH() * hours;
    if (rose) {
      return ratedG;
    }
    boolean handled = !cup.events.isEmpty();
    return handled || cup.weight.estimate().draining() ? Math.min(ratedG, fellG) : fellG;
  }

  private static void judge(BenchDraft draft, List<CupDraft> over) {
    double[] use = new double[draft.cups.size()];
    double[] quiet = new double[draft.cups.size()];
    int known = 0;
    for (CupDraft cup : draft.cups.values()) {
      WaterAccount balance = cup.account;
      LossLog.Day day = balance.usual().known() ? balance.losses().day() : null;
      if (day != null && balance.usual().quietPerKpa() > 0.0) {
        use[known] = day.perKpa() / balance.usual().perKpa();
        quiet[known++] = day.quietPerKpa() / balance.usual().quietPerKpa();
      }
    }
    WatchDrift.Neighbours others =
        new WatchDrift.Neighbours(
            MiddleValue.of(use, known, LEAST_CUPS), MiddleValue.of(quiet, known, LEAST_CUPS));
    for (CupDraft cup : over) {
      cup.account = WatchDrift.slotOver(cup.account, draft.at, others, cup.weights.availableMl());
    }
  }

  private static void doubt(Instant at, CupDraft cup) {
    if (!cup.now.trusted() || cup.presence.away()) {
      return;
    }
    boolean wantsWater = cup.refill() != null || cup.depletion() > cup.frame.lines().due();
    double availableMl = cup.weights.availableMl();
    if (WatchDrift.doubts(
        cup.account.drift(), wantsWater, cup.roomToWetMl(), cup.leastMl(null), availableMl)) {
      cup.account = cup.account.doubted(at, cup.now.massG());
      cup.weight = cup.weight.distrusted(at);
      cup.seeNow(at);
    }
  }

  /** Of a cup whose scale is not believed, what is foretold counts as lost. */
  private static void reckon(Instant at, CupDraft cup, double driveKpa) {
    if (Double.isNaN(cup.readG)) {
      return;
    }
    Instant since = cup.account.seenAt();
    double hours = Elapsed.hours(since, at);
    double foretoldG = cup.account.foretoldG(hours, driveKpa, cup.predictedGPerH());
    cup.account = cup.account.reckoned(at, cup.readG, foretoldG);
    cup.seeNow(at);
  }
}
