package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A disk that stays full, looked at every five minutes. */
class OwnAlertsTest {
  private static final Instant START = Instant.parse("2027-01-08T18:00:00Z");
  private static final Duration LOOK = Duration.ofMinutes(5);

  private final OwnAlerts alerts = new OwnAlerts();
  private final List<JournalEvent> told = new ArrayList<>();
  private Instant at = START;

  @Test
  void fullDiskIsToldAgainEachDayUntilThereIsRoom() {
    full(Duration.ofDays(3));
    assertEquals(4, told.size());
    assertTrue(told.get(3).data().path("again").asBoolean());
    assertEquals(START.toString(), told.get(3).data().path("since").asText());
    alerts.clear(AlertCode.STORE_FULL, at, 100);
    take();
    assertEquals("cleared", told.get(4).data().path("state").asText());
    assertEquals(64.0, told.get(4).data().path("threshold").asDouble());
  }

  @Test
  void restartKeepsWhenItWasTold() {
    AlertNotice notice =
        new AlertNotice(
            "store-full",
            null,
            "raised",
            START.minus(Duration.ofDays(9)),
            40,
            64,
            "Free some space.");
    alerts.stands(new Journal.ToldAlert(START.minus(Duration.ofHours(20)), notice));
    full(Duration.ofHours(3));
    assertEquals(List.of(), told);
    full(Duration.ofHours(2));
    assertEquals(1, told.size());
    assertEquals(
        START.minus(Duration.ofDays(9)).toString(), told.get(0).data().path("since").asText());
  }

  @Test
  void aPersonPutsItOffByItsName() throws Exception {
    full(Duration.ofHours(1));
    List<JsonNode> orders =
        new ArrayList<>(
            List.of(
                Json.MAPPER.readTree(
                    "{\"id\":\"a\",\"kind\":\"later\",\"alert\":\"store-full\",\"until\":\""
                        + START.plus(Duration.ofDays(3))
                        + "\"}"),
                Json.MAPPER.readTree("{\"id\":\"b\",\"kind\":\"later\",\"alert\":\"cold\"}")));
    alerts.putOff(at, orders);
    assertEquals(1, orders.size(), "the other is the bench's");
    full(Duration.ofDays(2));
    assertEquals(2, told.size());
    assertEquals("done", told.get(1).data().path("outcome").asText());
    full(Duration.ofDays(1));
    assertEquals(3, told.size());
  }

  private void full(Duration time) {
    for (Instant end = at.plus(time); !at.isAfter(end); at = at.plus(LOOK)) {
      alerts.raise(AlertCode.STORE_FULL, at, 40, 64, "Free some space.");
      take();
    }
  }

  private void take() {
    told.addAll(alerts.untold(at));
    alerts.told();
  }
}
