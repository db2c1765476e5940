package dev.cupwarden.host.review;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class TankUseTest {
  @Test
  void aTankIsEmptyWhenWhatIsLeftIsUsedUp() {
    assertEquals(Optional.of(EIGHT.plus(Duration.ofHours(60))), TankUse.emptyAt(1_000, 400, EIGHT));
    assertEquals(Optional.of(EIGHT), TankUse.emptyAt(0, 400, EIGHT));
    assertEquals(Optional.empty(), TankUse.emptyAt(1_000, 0, EIGHT));
  }

  @Test
  void whatABenchCannotMeanGivesNoTimeBeyondAllClocks() {
    assertEquals(Optional.empty(), TankUse.emptyAt(1_000, Double.MIN_VALUE, EIGHT));
    assertEquals(Optional.empty(), TankUse.emptyAt(1e300, 400, EIGHT));
    assertEquals(Optional.of(EIGHT), TankUse.emptyAt(-1e300, 400, EIGHT));
  }
}
