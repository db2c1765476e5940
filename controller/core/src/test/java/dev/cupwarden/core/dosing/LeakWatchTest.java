package dev.cupwarden.core.dosing;

import static dev.cupwarden.core.dosing.LeakSensor.DRY;
import static dev.cupwarden.core.dosing.LeakSensor.UNREAD;
import static dev.cupwarden.core.dosing.LeakSensor.WET;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.LeakWatch.Stage;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** Each row of the class comment. */
class LeakWatchTest {
  private static final double TRAY_ML = 1_000.0;
  private Instant at = Instant.parse("2027-02-14T08:00:00Z");

  private LeakWatch after(LeakWatch watch, Duration time, LeakSensor seen) {
    Instant before = at;
    at = at.plus(time);
    return watch.look(at, seen, before, TRAY_ML);
  }

  private LeakWatch soon(LeakWatch watch, LeakSensor seen) {
    return after(watch, Duration.ofMinutes(5), seen);
  }

  private LeakWatch drying() {
    return soon(soon(LeakWatch.NONE, WET), DRY);
  }

  private LeakWatch onRescue() {
    return after(drying(), Duration.ofHours(6), DRY);
  }

  @Test
  void soundUntilWetOrUnread() {
    assertEquals(Stage.SOUND, soon(LeakWatch.NONE, DRY).stage());
    assertEquals(Stage.WET, soon(LeakWatch.NONE, WET).stage());
    LeakWatch unread = soon(LeakWatch.NONE, UNREAD);
    assertEquals(Stage.UNREAD, unread.stage());
    assertTrue(unread.off());
    assertFalse(LeakWatch.NONE.off());
    assertFalse(onRescue().off());
    assertEquals(unread, soon(unread, UNREAD), "since the first");
    assertEquals(Stage.SOUND, soon(unread, DRY).stage());
    assertEquals(Stage.WET, soon(unread, WET).stage());
  }

  @Test
  void sixDryHoursAndNoneOfThemWet() {
    assertEquals(Stage.WET, soon(soon(LeakWatch.NONE, WET), UNREAD).stage());
    LeakWatch drying = drying();
    assertEquals(Stage.DRYING, after(drying, Duration.ofMinutes(359), DRY).stage());
    assertEquals(Stage.RESCUE, soon(drying, DRY).stage());
    assertEquals(Stage.WET, soon(drying, WET).stage());
    assertEquals(Stage.WET, soon(drying, UNREAD).stage());
  }

  @Test
  void whatIsMissingMustStillGoIntoTheTray() {
    LeakWatch little = drying().with(new WaterBalance(400.0));
    assertEquals(300.0, after(little, Duration.ofHours(6), DRY).leftMl(), 1e-9, "half of 600 mL");
    LeakWatch much = drying().with(new WaterBalance(TRAY_ML));
    LeakWatch off = after(much, Duration.ofHours(6), DRY);
    assertEquals(Stage.UNEXPLAINED, off.stage());
    assertEquals(off, after(off, Duration.ofDays(30), DRY));
    assertEquals(off, soon(off, WET));
  }

  @Test
  void wetWithinTheWatchIsForAPersonAndLaterIsNot() {
    LeakWatch gave = onRescue().gave(at, 30.0);
    assertTrue(gave.watching(at.plus(Duration.ofMinutes(11))));
    assertFalse(gave.watching(at.plus(Duration.ofMinutes(12))));
    Instant given = at;
    LeakWatch person = soon(gave, WET);
    assertEquals(Stage.PERSON, person.stage());
    assertEquals(person, after(person, Duration.ofDays(30), DRY));

    at = given;
    LeakWatch dry = after(gave, Duration.ofMinutes(12), DRY);
    assertEquals(Stage.PERSON, soon(dry, WET).stage(), "it may have been wet within the watch");
    at = given;
    dry = after(gave, Duration.ofMinutes(13), DRY);
    assertEquals(Stage.WET, soon(dry, WET).stage());
    at = given;
    assertEquals(Stage.WET, soon(gave, UNREAD).stage(), "not known to be wet, off all the same");
  }

  @Test
  void allRescuesTogetherAreBoundedAcrossASecondLeak() {
    LeakWatch gave = onRescue().gave(at, 450.0);
    assertEquals(50.0, gave.leftMl(), 1e-9);
    at = at.plus(Duration.ofHours(1));
    LeakWatch again = soon(soon(after(gave, Duration.ofHours(1), DRY), WET), DRY);
    again = after(again, Duration.ofHours(6), DRY);
    assertEquals(Stage.RESCUE, again.stage());
    assertEquals(50.0, again.leftMl(), 1e-9);
    assertEquals(0.0, again.gave(at, 50.0).leftMl(), 1e-9);
  }

  @Test
  void nothingMoreWhileTheSensorIsWatchedAfterARescue() {
    LeakWatch gave = onRescue().gave(at, 450.0);
    assertEquals(0.0, gave.roomMl(at.plus(Duration.ofMinutes(11))));
    assertEquals(50.0, gave.roomMl(at.plus(Duration.ofMinutes(12))), 1e-9);
  }

  @Test
  void benchThatAnOlderJournalCallsWet() {
    LeakWatch wet = LeakWatch.wetSince(at);
    assertEquals(Stage.WET, wet.stage());
    assertEquals(at, wet.since());
  }

  @Test
  void aPassOfASoundBenchIsNotCounted() {
    assertEquals(LeakWatch.NONE, LeakWatch.NONE.gave(at, 30.0));
  }

  @Test
  void whatIsMissingFadesWhileDryAndNotWhileWet() {
    LeakWatch missing = LeakWatch.NONE.with(new WaterBalance(100.0));
    assertEquals(
        36.8, after(missing, Duration.ofHours(24), DRY).balance().unexplainedMl(), 0.1, "1/e");
    LeakWatch wet = soon(missing, WET);
    assertEquals(100.0, after(wet, Duration.ofHours(24), DRY).balance().unexplainedMl(), 1e-9);
  }
}
