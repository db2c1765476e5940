package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import java.time.Instant;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which alerts are put off, until when at most, and of which cup. */
class PutOffAlertsTest {
  private final BenchDraft draft = new DraftBench().draft();

  PutOffAlertsTest() {
    SortedMap<String, OpenAlert> open = new TreeMap<>();
    open.put("near-dry/A1", DraftBench.stands("near-dry", "A1", null));
    open.put("near-dry/A2", DraftBench.stands("near-dry", "A2", null));
    open.put("leak", DraftBench.stands("leak", null, null));
    open.put("tank-low/tank:plain", DraftBench.stands("tank-low", null, "plain"));
    draft.alerts = open;
  }

  private String refusal(String code, String cup, String until) {
    try {
      PutOffAlerts.putOff(
          draft,
          new Order.Later(
              "o", code, Optional.ofNullable(cup), Optional.empty(), Instant.parse(until)));
      return "";
    } catch (OrderRefused refused) {
      return refused.getMessage();
    }
  }

  /** Seven days at most; a leak not at all. */
  @ParameterizedTest(name = "{0} of {1} until {2}: {3}")
  @CsvSource({
    "near-dry, A1, 2027-02-14T12:00:00Z, until: 2027-02-14T12:00:00Z is not later",
    "near-dry, A1, 2027-02-21T12:00:00Z, ''",
    "near-dry, A1, 2027-02-21T12:00:01Z, until: an alert is put off for at most 7 days",
    "near-dry, , 2027-02-15T12:00:00Z, alert: no near-dry of the whole bench is open",
    "near-dry, A9, 2027-02-15T12:00:00Z, cup: ",
    "leak, , 2027-02-15T12:00:00Z, alert: leak is not put off",
    "cold, , 2027-02-15T12:00:00Z, alert: no cold of the whole bench is open"
  })
  void putOffAheadForAWeekAtMost(String code, String cup, String until, String begins) {
    String why = refusal(code, cup, until);
    assertTrue(begins.isEmpty() ? why.isEmpty() : why.startsWith(begins), why);
  }

  @Test
  void onlyThatCupsAlertWaits() {
    assertEquals("", refusal("near-dry", "A1", "2027-02-15T12:00:00Z"));
    Instant until = Instant.parse("2027-02-15T12:00:00Z");
    assertEquals(until, draft.alerts.get("near-dry/A1").told().laterUntil());
    assertEquals(AT.minusSeconds(3600), draft.alerts.get("near-dry/A1").since(), "it stands on");
    assertNull(draft.alerts.get("near-dry/A2").told());
  }
}
