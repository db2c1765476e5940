package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules.PlanStep;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Leafy from February, fruity from April: told from a week ahead, our choice. */
class FeedSwitchTest {
  private static final LocalDate APRIL = LocalDate.parse("2027-04-01");
  private static final List<PlanStep> PLAN =
      List.of(new PlanStep(LocalDate.parse("2027-02-01"), "leafy"), new PlanStep(APRIL, "fruity"));

  @ParameterizedTest(name = "on {0}: {1} days")
  @CsvSource({"2027-03-25, 7", "2027-03-31, 1", "2027-04-01, 0", "2027-04-03, -2"})
  void changeIsNearFromAWeekAhead(LocalDate today, long days) {
    assertEquals(
        Optional.of(new FeedSwitch(APRIL, "fruity", days)),
        FeedSwitch.due(PLAN, today, Set.of("leafy")));
  }

  @Test
  void noneWhereNothingIsToBeChanged() {
    LocalDate eightDaysAhead = LocalDate.parse("2027-03-24");
    assertEquals(Optional.empty(), FeedSwitch.due(PLAN, eightDaysAhead, Set.of("leafy")));
    assertEquals(Optional.empty(), FeedSwitch.due(PLAN, APRIL, Set.of("leafy", "fruity")));
    assertEquals(Optional.empty(), FeedSwitch.due(PLAN, APRIL, Set.of()), "no tank of feed");
    LocalDate beforeThePlan = LocalDate.parse("2027-01-24");
    assertEquals(Optional.empty(), FeedSwitch.due(PLAN, beforeThePlan, Set.of("old")));
    assertEquals(Optional.empty(), FeedSwitch.due(List.of(), APRIL, Set.of("leafy")));
  }

  /** 1.6 g/L at the label; half of it in 4 L are 3.2 g. */
  @Test
  void saysWhatToMixForTheTank() {
    Feed fruity = new Feed("fruity", 10, 30, 20, 1.6, Duration.ofDays(14), 5, 1.2);
    assertEquals(
        "From 2027-04-01 on the plan wants fruity: use up what is in the tank,"
            + " then mix 3.2 g of it into 4.0 L (strength 0.5).",
        new FeedSwitch(APRIL, "fruity", 7).sentence(fruity, 4_000.0, 0.5));
  }
}
