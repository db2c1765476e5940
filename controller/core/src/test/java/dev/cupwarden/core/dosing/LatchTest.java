package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.Json;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** A latch as a journal keeps it: by its alert's word. */
class LatchTest {
  private static final String KEPT =
      "{\"code\":\"dose-short\",\"since\":\"2027-02-14T12:00:00Z\",\"value\":0.5,\"threshold\":6.0}";

  private static final Latch LATCH =
      new Latch(AlertCode.DOSE_SHORT, Instant.parse("2027-02-14T12:00:00Z"), 0.5, 6.0);

  @Test
  void isKeptAndReadByItsAlertsWord() throws Exception {
    assertEquals(KEPT, Json.MAPPER.writeValueAsString(LATCH));
    assertEquals(LATCH, Json.MAPPER.readValue(KEPT, Latch.class));
  }
}
