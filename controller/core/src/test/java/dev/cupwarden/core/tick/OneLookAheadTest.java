package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.CupStatus;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import org.junit.jupiter.api.Test;

/**
 * The receipt of a hold, the status that page and order form go by, and the watering that comes
 * before a closed window say the same of when a cup may be dry. The window is 08:00 to 16:00.
 */
class OneLookAheadTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final double WET_G = 345.0;

  /** A1 loses twice as much by day as by night, as was seen for that long. */
  private static Story seen(int days, double dayGPerH) {
    Story story = Story.from("2027-02-11T08:00:00Z").with("A1", WET_G).with("A2", 330.0);
    for (int tick = 0; tick < days * 288; tick++) {
      dry(story, dayGPerH);
      story.wait(TICK).look();
    }
    return story;
  }

  private static void dry(Story story, double dayGPerH) {
    int hour = story.at.atZone(ZoneOffset.UTC).getHour();
    story.rateGPerH.put("A1", hour >= 8 && hour < 20 ? dayGPerH : dayGPerH / 2);
  }

  private static Advice hold(Story story, Instant until) {
    return story.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"" + until + "\"}");
  }

  /** What its status tells after a look at which nothing is put out. */
  private static CupStatus heldStatus(Story story) {
    hold(story, story.at.plus(Duration.ofDays(9)));
    return status(story);
  }

  private static CupStatus status(Story story) {
    return story.tick.standing(story.state).statuses().stream()
        .filter(cup -> cup.cup().equals("A1"))
        .findFirst()
        .orElseThrow();
  }

  private static boolean receiptNamesIt(Story story, Instant until) {
    return hold(story, until).receipts().get(0).dryBefore().contains("A1");
  }

  @Test
  void holdIsAnsweredByTheTimeThatTheStatusTells() {
    CupStatus told = heldStatus(seen(3, 1.2));
    assertTrue(told.dryBefore().isBefore(told.dryAt()), "the bound comes before the likely time");
    assertFalse(receiptNamesIt(seen(3, 1.2), told.dryBefore().minusSeconds(61)));
    assertTrue(receiptNamesIt(seen(3, 1.2), told.dryBefore().plusSeconds(61)));
  }

  /** Nothing was learned at the first look: the stage's foretold use answers, with no dry time. */
  @Test
  void freshCupIsAnsweredByTheUseOfItsStage() {
    CupStatus told = heldStatus(seen(0, 0));
    assertNull(told.dryAt());
    assertFalse(receiptNamesIt(seen(0, 0), told.dryBefore().minusSeconds(61)));
    assertTrue(receiptNamesIt(seen(0, 0), told.dryBefore().plusSeconds(61)));
  }

  /** A thirsty cup, tick by tick beside a copy of it that is held. */
  @Test
  void waterComesBeforeAClosedWindowWhenTheStatusSaysDryBeforeItOpens() {
    Story story = seen(3, 6);
    int byForecast = 0;
    for (int tick = 0; tick < 3 * 288; tick++) {
      dry(story, 6);
      story.wait(TICK);
      boolean watering = story.state.cups().get("A1").watering().refill() != null;
      CupStatus held = heldStatus(story.copy());
      Advice advice = story.look();
      Instant day = story.at.truncatedTo(ChronoUnit.DAYS);
      boolean open =
          !story.at.isBefore(day.plus(Duration.ofHours(8)))
              && story.at.isBefore(day.plus(Duration.ofHours(16)));
      if (open && !watering && held.depletion() < held.due()) {
        boolean dryFirst = held.dryBefore().isBefore(day.plus(Duration.ofHours(24 + 8)));
        assertEquals(dryFirst, !advice.passes().isEmpty(), story.at.toString());
        byForecast += dryFirst ? 1 : 0;
      }
    }
    assertTrue(byForecast > 0, "no watering came by forecast");
  }
}
