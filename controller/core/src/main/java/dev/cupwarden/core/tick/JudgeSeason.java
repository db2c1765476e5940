package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.estimate.RootSignal;
import dev.cupwarden.core.season.CupSeason;
import dev.cupwarden.core.season.SeasonCard;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.watering.WetClock;
import java.util.ArrayList;
import java.util.List;

/**
 * The season's advice, one card a cup at a time: the one that stands until it is over, then the
 * most pressing.
 */
final class JudgeSeason {
  private static final double HOURS_A_DAY = 24.0;

  /** How a card ends that stood: a fifth below what began it. */
  private static final double ENDS_BELOW = 0.8;

  private static final List<SeasonCard> CARDS = List.of(SeasonCard.values());

  private JudgeSeason() {}

  static void judge(BenchDraft draft, CupDraft cup, Conditions to) {
    List<Condition> cards = new ArrayList<>(CARDS.size());
    for (SeasonCard card : CARDS) {
      cards.add(of(draft, cup, card));
    }
    SeasonCard shown = cup.plant.season().shown();
    if (shown == null || cards.get(shown.ordinal()).level() == Condition.Level.OFF) {
      shown = first(cards);
    }
    cup.plant = cup.plant.with(cup.plant.season().showing(shown));
    for (SeasonCard card : CARDS) {
      Condition of = cards.get(card.ordinal());
      Condition.Level level = card == shown ? of.level() : Condition.Level.OFF;
      to.add(of.code(), cup.name(), level, of.value(), of.threshold());
    }
  }

  private static SeasonCard first(List<Condition> cards) {
    for (SeasonCard card : CARDS) {
      if (cards.get(card.ordinal()).level() == Condition.Level.ON) {
        return card;
      }
    }
    return null;
  }

  private static Condition of(BenchDraft draft, CupDraft cup, SeasonCard card) {
    return switch (card) {
      case SHADE_LEAVES -> shadeLeaves(draft, cup);
      case LEAF_DROP -> leafDrop(draft, cup);
      case TOP_WET -> topWet(draft, cup);
      case STOP_HEAT -> stopHeat(draft, cup);
      case POT_ON -> potOn(cup);
      case POT_BOUND -> potBound(draft, cup);
      case HARDEN_OFF -> hardenOff(draft, cup);
      case LITTLE_LIGHT -> littleLight(draft, cup);
    };
  }

  private static Condition shadeLeaves(BenchDraft draft, CupDraft cup) {
    boolean noRoots =
        cup.setup.stage() == RootStage.STRUCK
            && cup.plant.rooting() != null
            && cup.plant.rooting().seenLately(draft.at);
    RootSignal roots = cup.plant.roots();
    return condition(
        cup,
        AlertCode.SHADE_LEAVES,
        noRoots && roots.draws() ? Condition.Level.ON : Condition.Level.OFF,
        roots.ratio(),
        RootSignal.LOOK_AT);
  }

  /** Told once it has water again: before that near-dry is told. */
  private static Condition leafDrop(BenchDraft draft, CupDraft cup) {
    CupSeason season = cup.plant.season();
    double days = JudgeConditions.hours(season.driedOutAt(), draft.at) / HOURS_A_DAY;
    boolean lately =
        cup.setup.stage().rooted()
            && season.driedOutAt() != null
            && days < SeasonCard.LEAF_DROP_DAYS;
    boolean watered = cup.depletion() < cup.frame.lines().due();
    Condition.Level level =
        !lately ? Condition.Level.OFF : watered ? Condition.Level.ON : Condition.Level.BETWEEN;
    return condition(cup, AlertCode.LEAF_DROP, level, season.driedOutTo(), cup.frame.lines().dry());
  }

  /** Of one that is told as staying wet that is the story. */
  private static Condition topWet(BenchDraft draft, CupDraft cup) {
    double days = JudgeConditions.hours(cup.plant.season().topWetSince(), draft.at) / HOURS_A_DAY;
    boolean sodden = cup.watering.wet().hours(draft.at) >= WetClock.WARN_AFTER_H;
    Condition.Level level =
        sodden
            ? Condition.Level.OFF
            : Condition.Level.above(days, SeasonCard.TOP_WET_DAYS, SeasonCard.TOP_WET_DAYS);
    return condition(cup, AlertCode.TOP_WET, level, days, SeasonCard.TOP_WET_DAYS);
  }

  private static Condition stopHeat(BenchDraft draft, CupDraft cup) {
    double days = JudgeConditions.hours(cup.plant.season().heatedSince(), draft.at) / HOURS_A_DAY;
    boolean so = cup.setup.stage().takesFeed() && days >= SeasonCard.HEATED_DAYS;
    return condition(
        cup,
        AlertCode.STOP_HEAT,
        so ? Condition.Level.ON : Condition.Level.OFF,
        finite(draft.rootsC(cup)),
        finite(draft.airC() + SeasonCard.UNHEATED_K));
  }

  private static Condition potOn(CupDraft cup) {
    if (cup.setup.stage() != RootStage.CIRCLING || !cup.plant.use().known()) {
      // What three days of use had shown stands until they show otherwise.
      Condition.Level level =
          cup.setup.stage() == RootStage.CIRCLING ? Condition.Level.BETWEEN : Condition.Level.OFF;
      return condition(cup, AlertCode.POT_ON, level, 0.0, 0.0);
    }
    double dayG = cup.plant.use().lostPerDayG();
    double roomG =
        (cup.frame.lines().due() - cup.frame.lines().refill()) * cup.weights.availableMl();
    return condition(
        cup, AlertCode.POT_ON, Condition.Level.above(dayG, roomG, ENDS_BELOW * roomG), dayG, roomG);
  }

  private static Condition potBound(BenchDraft draft, CupDraft cup) {
    boolean circling = cup.setup.stage() == RootStage.CIRCLING;
    double days =
        circling ? JudgeConditions.hours(cup.plant.stageSince(), draft.at) / HOURS_A_DAY : 0.0;
    return condition(
        cup,
        AlertCode.POT_BOUND,
        days >= SeasonCard.CIRCLING_DAYS ? Condition.Level.ON : Condition.Level.OFF,
        days,
        SeasonCard.CIRCLING_DAYS);
  }

  /**
   * Begun on the first day of which a person says so, or on the second that its scale shows: a
   * broken wire looks like a cup in the sun for one day.
   */
  private static Condition hardenOff(BenchDraft draft, CupDraft cup) {
    int days = cup.plant.season().outings().days(draft.at, draft.zone());
    boolean open = cup.setup.stage().takesFeed() && days > 0 && days < SeasonCard.DAYS_OUT;
    boolean sure = cup.presence.away() || days > 1;
    Condition.Level level =
        !open ? Condition.Level.OFF : sure ? Condition.Level.ON : Condition.Level.BETWEEN;
    return condition(cup, AlertCode.HARDEN_OFF, level, days, SeasonCard.DAYS_OUT);
  }

  private static Condition littleLight(BenchDraft draft, CupDraft cup) {
    double mol = draft.air.lightDay().lastMolPerM2();
    boolean heard =
        draft.air.light() != null && AirState.silentH(draft.air.light(), draft.at) <= HOURS_A_DAY;
    Condition.Level level =
        cup.setup.stage().rooted() && heard && !Double.isNaN(mol)
            ? Condition.Level.below(mol, SeasonCard.LITTLE_MOL, SeasonCard.ENOUGH_MOL)
            : Condition.Level.OFF;
    return condition(cup, AlertCode.LITTLE_LIGHT, level, finite(mol), SeasonCard.LITTLE_MOL);
  }

  private static Condition condition(
      CupDraft cup, AlertCode code, Condition.Level level, double value, double threshold) {
    return new Condition(code, cup.name(), level, value, threshold);
  }

  /** What nobody measures is told as nothing. */
  private static double finite(double value) {
    return Double.isNaN(value) ? 0.0 : value;
  }
}
