package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.DryingUse;
import dev.cupwarden.core.estimate.Forecast;
import dev.cupwarden.core.estimate.OwnWater;
import dev.cupwarden.core.estimate.Share;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.substrate.WaterStress;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.UseLog;
import java.time.Duration;
import java.util.Arrays;

/**
 * What a cup holds whose weight is not to be had: reckoned on by what its neighbours lose in the
 * same air and light, and the share that it had of it while it was weighed. Where too few
 * neighbours are weighed, by what it used itself in air like this, and then the doubt grows faster.
 */
final class ReckonWater {
  /** Fewer neighbours say nothing of the air and light of today. */
  private static final int LEAST_NEIGHBOURS = 3;

  /** After a pass its weight says more of the pass than of drying: our choice. */
  private static final Duration SOAKS = Duration.ofMinutes(30);

  /** A share wanders by this part in a day: cuttings do not grow alike. Our choice, own trials. */
  private static final double SHARE_WANDERS = 0.02;

  /**
   * A cup without roots loses what its bare mix does, which is far more while its top is wet than
   * weeks later: its share is that of the days in which it was learned, and errs by this part. Our
   * choice, own trials: two weeks later such cups used 0.7 to 0.8 of what was reckoned, one that
   * was watered meanwhile 1.4 times as much.
   */
  private static final double BARE_MIX_SD = 0.3;

  /** A reading that is off its forecast by more is no drying: a hand, a spike. Our choice. */
  private static final double GREATEST_OFF_G = 2.0;

  /** A use learned alone, held against the weather of other days (our choice, own trials). */
  private static final OwnWater.Trust OWN_USE = new OwnWater.Trust(0.15 * 0.15, 0.25, 0.04 * 0.04);

  /** A use that only the stage foretells (our choice). */
  private static final OwnWater.Trust FORETOLD =
      new OwnWater.Trust(Forecast.FORETOLD_ERR_PART * Forecast.FORETOLD_ERR_PART, 0.3, 0.05 * 0.05);

  /** From here on leaves close: FAO-56, chapter 8, with a cup's fraction (own choice). */
  private static final double NO_STRESS = 0.65;

  /** Learns of the cups that are weighed and carries on the others. */
  void reckon(BenchDraft draft) {
    double hours = draft.before.at() == null ? 0.0 : Elapsed.hours(draft.before.at(), draft.at);
    double indexGPerH = index(draft);
    double grownLog = learn(draft, indexGPerH, hours);
    for (CupDraft cup : draft.cups.values()) {
      if (!cup.now.trusted() && (cup.weight.reckoning().on() || begin(draft, cup, indexGPerH))) {
        carryOn(draft, cup, indexGPerH, grownLog);
      }
    }
  }

  /**
   * Learns of all that are weighed. Shares are of a loss that is itself reckoned by shares, so what
   * all cups in leaf grow by shows in the index or in their shares: by what part in these is
   * returned, the mean rise of the logarithms.
   */
  private static double learn(BenchDraft draft, double indexGPerH, double hours) {
    double risen = 0.0;
    int rooted = 0;
    for (CupDraft cup : draft.cups.values()) {
      if (cup.now.trusted()) {
        Share before = cup.weight.reckoning().share();
        learn(draft, cup, indexGPerH, hours);
        if (before.known() && cup.setup.stage().rooted()) {
          risen += cup.weight.reckoning().share().log() - before.log();
          rooted++;
        }
      }
    }
    return rooted < LEAST_NEIGHBOURS ? 0.0 : risen / rooted;
  }

  /** What the weight says of a pass is what the next one will bring, too. */
  void learnArrivals(BenchDraft draft) {
    for (CupDraft cup : draft.cups.values()) {
      DoseCheck.Finding finding = cup.finding;
      if (finding != null && finding.verdict() != DoseCheck.Verdict.SHORT && cup.now.trusted()) {
        cup.weight =
            cup.weight.with(cup.weight.reckoning().arrived(finding.riseG(), finding.orderedMl()));
      }
    }
  }

  private static void learn(BenchDraft draft, CupDraft cup, double indexGPerH, double hours) {
    if (cup.weight.reckoning().on()) {
      cup.reckonFrom(null);
    }
    CupState kept = draft.before.cups().get(cup.name());
    boolean counts =
        hours > 0.0
            && hours <= UseLog.LONGEST_GAP_H
            && indexGPerH > 0.0
            && kept != null
            && kept.weight().distrustedSince() == null
            && !cup.presence.away();
    if (counts && dries(draft, cup)) {
      cup.weight =
          cup.weight.with(
              cup.weight.reckoning().weighed(lostG(draft, cup, kept), indexGPerH, hours));
    } else if (counts) {
      cup.weight = cup.weight.with(cup.weight.reckoning().wateredFor(indexGPerH, hours));
    }
  }

  /**
   * By its readings: the filter lags while the light comes and goes, and what it is behind by is
   * lost with each pass.
   */
  private static double lostG(BenchDraft draft, CupDraft cup, CupState kept) {
    CupEstimate was =
        CupEstimate.at(kept.weight().estimate(), cup.frame.weights(), draft.before.at());
    double filteredG = was.massG() - cup.now.massG();
    double readG = cup.readBeforeG - cup.readG;
    return Math.abs(readG - filteredG) <= GREATEST_OFF_G ? readG : filteredG;
  }

  /**
   * Whether its weight falls by drying alone. While a cup is watered, and until it has drained, its
   * rate is held; a morning's refill would hide how fast use rises in the light.
   */
  private static boolean dries(BenchDraft draft, CupDraft cup) {
    return !cup.presence.away()
        && cup.events.isEmpty()
        && !cup.weight.estimate().draining()
        && (cup.doses.lastPassAt() == null
            || !cup.doses.lastPassAt().plus(SOAKS).isAfter(draft.at));
  }

  /**
   * What a cup of share 1 would lose now, g/h: the mean over the middle half of the weighed cups,
   * each by its share, so that no single one leads. Those count whose share is known and that dry;
   * if they are too few, those that are watered, too; and while shares are still to be learned, all
   * alike. NaN where too few are weighed.
   */
  private static double index(BenchDraft draft) {
    int most = draft.cups.size();
    Sample drying = new Sample(most);
    Sample known = new Sample(most);
    Sample any = new Sample(most);
    for (CupDraft cup : draft.cups.values()) {
      if (!cup.now.trusted() || cup.presence.away()) {
        continue;
      }
      Share share = cup.weight.reckoning().share();
      double one = cup.now.rateGPerH() / share.part();
      if (cup.now.rateKnown()) {
        any.add(one);
      }
      // In the hour of lights-on no rate is well known; to leave the leafy out would mislead.
      if (share.known()) {
        known.add(one);
        if (dries(draft, cup)) {
          drying.add(one);
        }
      }
    }
    return drying.enough() ? drying.middle() : known.enough() ? known.middle() : any.middle();
  }

  /** Values of some cups. */
  private static final class Sample {
    private final double[] values;
    private int count;

    Sample(int most) {
      values = new double[most];
    }

    void add(double value) {
      values[count++] = value;
    }

    boolean enough() {
      return count >= LEAST_NEIGHBOURS;
    }

    /** Mean of the middle half; NaN where they are too few. */
    double middle() {
      if (!enough()) {
        return Double.NaN;
      }
      Arrays.sort(values, 0, count);
      int off = count / 4;
      double sum = 0.0;
      for (int i = off; i < count - off; i++) {
        sum += values[i];
      }
      return sum / (count - 2 * off);
    }
  }

  /** From the forecast of its last trusted weight, with what was given since it was read. */
  private static boolean begin(BenchDraft draft, CupDraft cup, double indexGPerH) {
    CupState kept = draft.before.cups().get(cup.name());
    if (kept == null || !kept.weight().estimate().weighed()) {
      return false;
    }
    double usual = cup.weight.reckoning().share().usualIndex();
    OwnWater.Trust trust = trust(cup, indexGPerH);
    if (cup.weight.misplaced().on()) {
      double sdG = cup.weight.estimate().readingSdG();
      cup.reckonFrom(
          OwnWater.from(
              cup.weight.misplaced().since(), cup.weight.misplaced().ownG(), sdG, trust, usual));
      return true;
    }
    if (cup.account.drift().told()) {
      // Its scale fell by itself: by how much is reckoned already.
      cup.reckonFrom(OwnWater.from(draft.at, cup.now.massG(), cup.now.massSdG(), trust, usual));
      return true;
    }
    CupEstimate was =
        CupEstimate.at(kept.weight().estimate(), cup.frame.weights(), draft.before.at());
    double givenMl = 0.0;
    for (Given one : cup.doses.given()) {
      givenMl += was.readAt() != null && !one.at().isBefore(was.readAt()) ? one.ml() : 0.0;
    }
    double massG = was.massG() - was.beyondDryG();
    OwnWater water = OwnWater.from(draft.before.at(), massG, was.massSdG(), trust, usual);
    if (givenMl > 0.0) {
      double part = cup.weight.reckoning().arrivals().part();
      water = water.given(givenMl, part, cup.weights.capacityG());
    }
    cup.reckonFrom(water);
    return true;
  }

  private static OwnWater.Trust trust(CupDraft cup, double indexGPerH) {
    Share share = cup.weight.reckoning().share();
    if (share.known() && !Double.isNaN(indexGPerH)) {
      double bareVar = cup.setup.stage().rooted() ? 0.0 : BARE_MIX_SD * BARE_MIX_SD;
      return new OwnWater.Trust(
          Math.max(bareVar, share.levelVar()), share.dayScatter(), SHARE_WANDERS * SHARE_WANDERS);
    }
    return cup.weight.estimate().use().known() ? OWN_USE : FORETOLD;
  }

  private static void carryOn(BenchDraft draft, CupDraft cup, double indexGPerH, double grownLog) {
    OwnWater.Trust trust = trust(cup, indexGPerH);
    Share share = cup.weight.reckoning().share();
    OwnWater water = cup.weight.reckoning().water().under(indexGPerH, draft.at).grown(grownLog);
    double unseenDays = Elapsed.hours(water.since(), draft.at) / 24.0;
    double byShare =
        share.known()
            ? share.partNow(unseenDays, water.lately()) * grown(cup, water) * indexGPerH
            : Double.NaN;
    double rateGPerH = Double.isNaN(byShare) ? ownGPerH(draft, cup) : byShare;
    double availableMl = cup.weights.availableMl();
    double depletedMl = cup.weights.capacityG() - water.massG();
    double stress = WaterStress.coefficient(availableMl, depletedMl, NO_STRESS);
    double leastG = cup.frame.weights().dryG();
    cup.reckonFrom(water.dried(draft.at, rateGPerH * stress, leastG, trust));
    cup.seeNow(draft.at);
    if (cup.reckoned()) {
      cup.watering = cup.watering.seenAt(cup.depletion());
      UpdateEstimates.lookForHowLong(draft, cup);
    }
  }

  private static double grown(CupDraft cup, OwnWater water) {
    return cup.setup.stage().rooted() ? Math.exp(water.grownLog()) : 1.0;
  }

  /** What it used itself, in the air of now. */
  private static double ownGPerH(BenchDraft draft, CupDraft cup) {
    DryingUse use = cup.weight.estimate().use();
    double vpdKpa = draft.vpdKpa();
    if (use.knownPerKpa() && !Double.isNaN(vpdKpa)) {
      return use.gPerHAt(vpdKpa);
    }
    return use.known() ? use.meanGPerH() : cup.predictedGPerH();
  }
}
