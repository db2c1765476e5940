package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Json;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Passes halved down to a quarter where water ran past the mix: our choice. */
class SoakingTest {
  private static final Duration SOAK = Duration.ofMinutes(12);

  @ParameterizedTest(name = "{0}: after a bypass {1}, after an arrival {2}, {3} min")
  @CsvSource({
    "1.0, 0.5, 1.0, 12",
    "0.5, 0.25, 1.0, 24",
    "0.25, 0.25, 0.5, 24",
    "0.6, 0.3, 1.0, 24"
  })
  void partOfThePassAndSoak(double part, double bypass, double arrival, long minutes) {
    Soaking soaking = new Soaking(part, 2);
    assertEquals(bypass, soaking.afterBypass(true).passPart());
    assertEquals(arrival, soaking.afterArrival().passPart());
    assertEquals(Duration.ofMinutes(minutes), soaking.soak(SOAK));
  }

  @Test
  void mixShedsWaterAfterThreePassesThatHadRoom() {
    Soaking twice = Soaking.USUAL.afterBypass(true).afterBypass(true);
    assertFalse(twice.sheds());
    assertFalse(twice.afterBypass(false).sheds(), "a full cup runs over, it sheds nothing");
    Soaking sheds = twice.afterBypass(true);
    assertTrue(sheds.sheds());
    assertFalse(sheds.soaked().sheds());
    assertFalse(sheds.afterArrival().sheds());
    assertEquals(0.25, sheds.soaked().passPart());
  }

  @Test
  void olderJournalCountsNone() throws JsonProcessingException {
    assertEquals(new Soaking(0.5, 0), Json.MAPPER.readValue("{\"pass_part\":0.5}", Soaking.class));
  }

  @Test
  void cupThatTakesWaterWellKeepsItsPasses() {
    assertSame(Soaking.USUAL, Soaking.USUAL.afterArrival());
  }
}
