package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertBook;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.alerts.NearDry;
import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.Misplaced;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.DryClock;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;
import java.time.Instant;
import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A1 is near its dry line of 0.75 from 0.70 on, by what its scale shows or one in twenty may. */
class JudgeDrynessTest {
  private final BenchDraft draft = new DraftBench().draft();

  private Optional<AlertNotice> told(CupDraft cup) {
    Conditions conditions = new Conditions(Collections.emptySortedMap());
    JudgeDryness.judge(draft, cup, conditions);
    return DraftBench.told(draft, conditions, "near-dry");
  }

  private static Instant ago(double minutes) {
    return AT.minusSeconds(Math.round(60 * minutes));
  }

  @ParameterizedTest(name = "depletion {0}: {1}")
  @CsvSource({"0.699, false", "0.701, true"})
  void nearByATwentieth(double depletion, boolean near) {
    Optional<AlertNotice> notice = told(DraftBench.holds(draft, "A1", depletion));
    assertEquals(near, notice.isPresent());
    notice.ifPresent(one -> assertEquals(0.70, one.threshold(), 1e-9));
    notice.ifPresent(one -> assertEquals(depletion, one.value(), 1e-4));
    notice.ifPresent(one -> assertFalse(one.bound()));
  }

  /**
   * 1.645 standard deviations of its weight, in depletion, below 0.70, and a little more or less; a
   * doubt shorter than half an hour is a hand at the cup.
   */
  @ParameterizedTest(name = "{0} beyond, doubted for {1} min: {2}")
  @CsvSource({"-0.002, 30, false", "0.002, 30, true", "0.002, 29, false"})
  void cupThatIsNotBelievedIsJudgedByWhatOneInTwentyExceeds(
      double beyond, double minutes, boolean near) {
    CupDraft cup = draft.cups.get("A1");
    double depletion = 0.60;
    for (int i = 0; i < 20; i++) {
      doubted(depletion);
      depletion = 0.70 + beyond - 1.645 * cup.weightSd();
    }
    doubted(depletion);
    cup.weight = cup.weight.distrusted(ago(minutes));
    Optional<AlertNotice> notice = told(cup);
    assertEquals(near, notice.isPresent());
    notice.ifPresent(one -> assertTrue(one.bound()));
    notice.ifPresent(one -> assertTrue(one.whatToDo().endsWith(NearDry.whatToDo(0, false, false))));
    assertEquals(beyond > 0.0, JudgeDryness.nearDry(cup));
  }

  private void doubted(double depletion) {
    double massG = draft.cups.get("A1").weights.massG(depletion);
    DraftBench.doubted(draft, "A1", massG, 8.0, DistrustCode.SCALE_SILENT);
  }

  /** Past it, after six hours, a day, and with each day; our choice of steps. */
  @ParameterizedTest(name = "past it for {0} min: severity {1}")
  @CsvSource({"0, 1", "359, 1", "360, 2", "1439, 2", "1440, 3", "2880, 4"})
  void growsWorseWithItsTimePastTheLine(double minutes, int severity) {
    CupDraft cup = DraftBench.holds(draft, "A1", 0.76);
    cup.watering = cup.watering.with(new DryClock(ago(minutes)));
    assertEquals(severity, told(cup).get().severity());
  }

  @Test
  void cupThatIsBeingWateredIsToldSo() {
    CupDraft cup = DraftBench.holds(draft, "A1", 0.71);
    Refill refill = Refill.byHand(Cause.DUE, AT, 90.0, Double.NaN, Set.of(), null);
    cup.watering = cup.watering.with(refill);
    assertEquals(NearDry.whatToDo(0, true, false), told(cup).get().whatToDo());
    cup.watering = cup.watering.with(refill.plus(30.0));
    assertEquals(NearDry.whatToDo(0, true, true), told(cup).get().whatToDo());
  }

  /** Of what was lifted off cup-away is told, and of what is away nothing. */
  @Test
  void whatDriesElsewhereIsNotGuessedAt() {
    CupDraft cup = DraftBench.holds(draft, "A1", 0.65);
    cup.now =
        new CupEstimate(
            true, cup.now.massG(), 0.0, 20.0, 1.0, 0.1, true, cup.now.distrust(), true, AT);
    cup.weight = cup.weight.distrusted(ago(60));
    assertTrue(told(cup).isEmpty());
    CupDraft away = DraftBench.holds(draft, "A2", 0.95);
    assertTrue(told(away).isPresent());
    away.presence = away.presence.takenAway(AT);
    assertTrue(told(away).isEmpty());
  }

  @Test
  void cupInAnothersPlaceIsToldByItsPartner() {
    CupDraft cup = DraftBench.holds(draft, "A1", 0.71);
    cup.latch = new Latch(AlertCode.CUPS_SWAPPED, ago(60), 100.0, 0.0);
    assertTrue(told(cup).isEmpty(), "an older program kept not with whom");
    cup.weight = cup.weight.with(Misplaced.of("A2", ago(60), 300.0));
    assertEquals(NearDry.inAnothersPlace(0, "A2"), told(cup).get().whatToDo());
  }

  /** Half an hour: what another's weight had shown until then is no dryness of its own. */
  @ParameterizedTest(name = "back for {0} min: {1}")
  @CsvSource({"30, false", "31, true"})
  void cupThatIsJustBackIsNotJudgedByWhatStoodThere(double minutes, boolean near) {
    CupDraft cup = DraftBench.holds(draft, "A1", 0.76);
    cup.weight = cup.weight.with(new Misplaced("A2", null, 0.0, ago(minutes), 0));
    assertEquals(near, told(cup).isPresent());
  }

  @Test
  void whatStandsIsNotClearedByOneLookEither() {
    CupDraft cup = DraftBench.holds(draft, "A1", 0.10);
    cup.weight = cup.weight.with(new Misplaced("A2", null, 0.0, ago(5), 0));
    assertFalse(clears(cup));
    cup.weight = cup.weight.with(Misplaced.NONE);
    assertTrue(clears(cup));
  }

  /** Whether what is told of it ends. */
  private boolean clears(CupDraft cup) {
    SortedMap<String, OpenAlert> open =
        new TreeMap<>(Map.of("near-dry/A1", DraftBench.stands("near-dry", "A1", null)));
    Conditions conditions = new Conditions(open);
    JudgeDryness.judge(draft, cup, conditions);
    return AlertBook.judge(open, conditions, AT, draft.cups.keySet(), Duration.ZERO)
        .changes()
        .stream()
        .anyMatch(one -> one.state().equals("cleared"));
  }

  /** (401.872 - 190) / 271.754 = 0.78: a fall of 140 g at once is a hand, until it stays. */
  @Test
  void fallThatNoDryingExplainsIsToldOnceItHasSettled() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 330.0);
    story.run(Duration.ofHours(1));
    story.with("A1", 190.0);
    story.wait(Duration.ofMinutes(5)).look();
    assertFalse(story.raised("near-dry"));
    story.wait(Duration.ofMinutes(5)).look();
    assertFalse(story.raised("near-dry"));
    story.run(Duration.ofMinutes(15));
    assertTrue(story.raised("near-dry"));
  }
}
