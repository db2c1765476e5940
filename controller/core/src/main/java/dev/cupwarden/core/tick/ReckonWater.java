package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.DryingUse;
import dev.cupwarden.core.estimate.OwnWater;
import dev.cupwarden.core.estimate.Share;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.substrate.WaterStress;
import dev.cupwarden.core.units.Elapsed;
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

  /** A share is learned over gaps up to this; over longer ones nobody saw the loss. */
  private static final double LONGEST_GAP_H = 2.0;

  /** After a pass its weight says more of the pass than of drying: our choice. */
  private static final Duration SOAKS = Duration.ofMinutes(30);

  /** A share wanders by this part in a day: cuttings do not grow alike. Our choice, own trials. */
  private static final double SHARE_WANDERS = 0.04;

  /**
   * A cutting in leaf grows against the bench: from toughened to circling roots its use rises by
   * two fifths ({@code PredictedUse}) within some six weeks. Better reckoned than left out, since a
   * rooted cup is better slightly wet than dry. Our choice.
   */
  private static final double GROWS_PER_DAY = 0.01;

  /** A use learned alone, held against the weather of other days (our choice, own trials). */
  private static final OwnWater.Trust OWN_USE = new OwnWater.Trust(0.15 * 0.15, 0.25, 0.04 * 0.04);

  /** A use that only the stage foretells (our choice). */
  private static final OwnWater.Trust FORETOLD = new OwnWater.Trust(0.5 * 0.5, 0.3, 0.05 * 0.05);

  /** From here on leaves close: FAO-56, chapter 8, with a cup's fraction (own choice). */
  private static final double NO_STRESS = 0.65;

  /** Learns of the cups that are weighed and carries on the others. */
  void reckon(BenchDraft draft) {
    double hours = draft.before.at() == null ? 0.0 : Elapsed.hours(draft.before.at(), draft.at);
    double indexGPerH = index(draft);
    for (CupDraft cup : draft.cups.values()) {
      if (cup.now.trusted()) {
        learn(draft, cup, indexGPerH, hours);
      } else if (cup.reckoning.on() || begin(draft, cup, indexGPerH)) {
        carryOn(draft, cup, indexGPerH);
      }
    }
  }

  /** What the weight says of a pass is what the next one will bring, too. */
  void learnArrivals(BenchDraft draft) {
    for (CupDraft cup : draft.cups.values()) {
      DoseCheck.Finding finding = cup.finding;
      if (finding != null && finding.verdict() != DoseCheck.Verdict.SHORT && cup.now.trusted()) {
        cup.reckoning = cup.reckoning.arrived(finding.riseG(), finding.orderedMl());
      }
    }
  }

  private static void learn(BenchDraft draft, CupDraft cup, double indexGPerH, double hours) {
    if (cup.reckoning.on()) {
      cup.reckoning = cup.reckoning.with(null);
    }
    CupState kept = draft.before.cups().get(cup.name());
    boolean seen =
        hours > 0.0
            && hours <= LONGEST_GAP_H
            && kept != null
            && kept.distrustedSince() == null
            && dries(draft, cup);
    if (seen && indexGPerH > 0.0) {
      CupEstimate was = CupEstimate.at(kept.estimate(), cup.frame.weights(), draft.before.at());
      double lostG = was.massG() - cup.now.massG();
      cup.reckoning = cup.reckoning.weighed(lostG, indexGPerH, hours);
    }
  }

  /**
   * Whether its weight falls by drying alone. While a cup is watered, and until it has drained, its
   * rate is held; a morning's refill would hide how fast use rises in the light.
   */
  private static boolean dries(BenchDraft draft, CupDraft cup) {
    return !cup.away
        && cup.events.isEmpty()
        && !cup.estimate.draining()
        && (cup.lastPassAt == null || !cup.lastPassAt.plus(SOAKS).isAfter(draft.at));
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
      if (!cup.now.trusted() || cup.away) {
        continue;
      }
      Share share = cup.reckoning.share();
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
    if (kept == null || !kept.estimate().weighed()) {
      return false;
    }
    double usual = cup.reckoning.share().usualIndex();
    OwnWater.Trust trust = trust(cup, indexGPerH);
    if (cup.misplaced.on()) {
      double sdG = cup.estimate.readingSdG();
      cup.reckoning =
          cup.reckoning.with(
              OwnWater.from(cup.misplaced.since(), cup.misplaced.ownG(), sdG, trust, usual));
      return true;
    }
    if (cup.account.drift().told()) {
      // Its scale fell by itself: by how much is reckoned already.
      cup.reckoning =
          cup.reckoning.with(
              OwnWater.from(draft.at, cup.now.massG(), cup.now.massSdG(), trust, usual));
      return true;
    }
    CupEstimate was = CupEstimate.at(kept.estimate(), cup.frame.weights(), draft.before.at());
    double givenMl = 0.0;
    for (Given one : cup.given) {
      givenMl += was.readAt() != null && !one.at().isBefore(was.readAt()) ? one.ml() : 0.0;
    }
    double massG = was.massG() - was.beyondDryG();
    OwnWater water = OwnWater.from(draft.before.at(), massG, was.massSdG(), trust, usual);
    if (givenMl > 0.0) {
      double part = cup.reckoning.arrivals().part();
      water = water.given(givenMl, part, cup.weights.capacityG());
    }
    cup.reckoning = cup.reckoning.with(water);
    return true;
  }

  private static OwnWater.Trust trust(CupDraft cup, double indexGPerH) {
    Share share = cup.reckoning.share();
    if (share.known() && !Double.isNaN(indexGPerH)) {
      return new OwnWater.Trust(
          share.levelVar(), share.dayScatter(), SHARE_WANDERS * SHARE_WANDERS);
    }
    return cup.estimate.use().known() ? OWN_USE : FORETOLD;
  }

  private static void carryOn(BenchDraft draft, CupDraft cup, double indexGPerH) {
    OwnWater.Trust trust = trust(cup, indexGPerH);
    Share share = cup.reckoning.share();
    OwnWater water = cup.reckoning.water().under(indexGPerH, draft.at);
    double unseenDays = Elapsed.hours(water.since(), draft.at) / 24.0;
    double byShare =
        share.known()
            ? share.partNow(unseenDays, water.lately()) * grown(cup, unseenDays) * indexGPerH
            : Double.NaN;
    double rateGPerH = Double.isNaN(byShare) ? ownGPerH(draft, cup) : byShare;
    double availableMl = cup.weights.availableMl();
    double depletedMl = cup.weights.capacityG() - water.massG();
    double stress = WaterStress.coefficient(availableMl, depletedMl, NO_STRESS);
    double leastG = cup.frame.weights().dryG();
    cup.reckoning = cup.reckoning.with(water.dried(draft.at, rateGPerH * stress, leastG, trust));
    cup.seeNow(draft.at);
    if (cup.reckoned()) {
      cup.driedFrom = Math.min(cup.driedFrom, cup.depletion());
      cup.wet = cup.wet.look(draft.at, cup.depletion(), cup.frame.lines(), Double.NaN);
    }
  }

  private static double grown(CupDraft cup, double unseenDays) {
    return cup.setup.stage().rooted() ? 1.0 + GROWS_PER_DAY * unseenDays : 1.0;
  }

  /** What it used itself, in the air of now. */
  private static double ownGPerH(BenchDraft draft, CupDraft cup) {
    DryingUse use = cup.estimate.use();
    double vpdKpa = draft.vpdKpa();
    if (use.knownPerKpa() && !Double.isNaN(vpdKpa)) {
      return use.gPerHAt(vpdKpa);
    }
    return use.known() ? use.meanGPerH() : cup.predictedGPerH();
  }
}
