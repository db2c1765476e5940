package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Decision;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class DecisionsTest {
  private static final Instant EIGHT = Instant.parse("2027-01-10T08:00:00Z");
  private final Decisions decisions = new Decisions();

  private static Decision decision(double depletion, String... codes) {
    List<CupStatus.Told> reasons =
        Arrays.stream(codes).map(code -> new CupStatus.Told(code, 1, 2, "h", "so it is")).toList();
    return new Decision(CupActivity.STEADY, 300.0, depletion, 1.2, 0.9, 0.0, 0.4, reasons);
  }

  private List<String> toldAt(Instant at, Decision a1) {
    var now = new TreeMap<String, Decision>();
    now.put("A1", a1);
    List<JournalEvent> told = decisions.untold(at, now);
    decisions.told();
    return told.stream().map(JournalEvent::cup).toList();
  }

  @Test
  void aReasonIsToldWhenItComesAndWhenItGoesButNotWhileItStays() {
    assertEquals(List.of("A1"), toldAt(EIGHT, decision(0.4, "window")));
    assertEquals(List.of(), toldAt(EIGHT.plusSeconds(300), decision(0.41, "window")));
    assertEquals(List.of("A1"), toldAt(EIGHT.plusSeconds(600), decision(0.42)));
    assertEquals(List.of("A1"), toldAt(EIGHT.plusSeconds(900), decision(0.43, "soak")));
  }

  @Test
  void whatStaysIsToldAgainWithinThreeHours() {
    Instant last = EIGHT;
    toldAt(EIGHT, decision(0.4));
    int again = 0;
    for (int minute = 1; minute <= 24 * 60; minute++) {
      Instant now = EIGHT.plus(Duration.ofMinutes(minute));
      if (!toldAt(now, decision(0.45)).isEmpty()) {
        assertTrue(Duration.between(last, now).compareTo(Decisions.AT_LEAST_EVERY) <= 0);
        last = now;
        again++;
      }
    }
    assertEquals(8, again);
  }

  @Test
  void notAllCupsAreToldAgainInOneTick() {
    var now = new TreeMap<String, Decision>();
    for (int i = 0; i < 180; i++) {
      now.put("C" + i, decision(0.4));
    }
    assertEquals(180, decisions.untold(EIGHT, now).size());
    decisions.told();
    for (int minute = 1; minute <= 180; minute++) {
      assertEquals(1, decisions.untold(EIGHT.plus(Duration.ofMinutes(minute)), now).size());
      decisions.told();
    }
  }

  @Test
  void whatTheJournalDidNotTakeIsToldAgain() {
    var now = new TreeMap<String, Decision>();
    now.put("A1", decision(0.4, "window"));
    decisions.untold(EIGHT, now);
    Instant next = EIGHT.plus(Duration.ofMinutes(5));
    assertEquals(1, decisions.untold(next, now).size());
    decisions.told();
    assertEquals(0, decisions.untold(next, now).size());
  }
}
