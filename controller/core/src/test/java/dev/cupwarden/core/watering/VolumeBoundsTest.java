package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Given;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Figures worked out by hand. */
class VolumeBoundsTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");

  private static Given pass(Duration ago, double ml, double roomMl) {
    return new Given(AT.minus(ago), ml, 0.0, null, roomMl, false);
  }

  private static LossLog.Slot lost(double lostG, double foretoldG) {
    return new LossLog.Slot(AT, lostG, foretoldG, lostG, 4.0, 4.0, Double.NaN);
  }

  @Test
  void inADayAFifthMoreThanTheRoomAtItsFirstPass() {
    List<Given> given =
        List.of(pass(Duration.ofHours(25), 500, 10), pass(Duration.ofHours(3), 60, 100));
    VolumeBounds.Bound bound = VolumeBounds.usual(AT, given, WaterAccount.NONE, 1.0);
    assertEquals(60.0, bound.leftMl(), 1e-9);
    assertEquals("", bound.detail());
  }

  @Test
  void orThanWhatItLostInTheDay() {
    WaterAccount cup = WaterAccount.NONE.seen(AT, 300, lost(150, 100));
    List<Given> given = List.of(pass(Duration.ofHours(3), 60, 100));
    assertEquals(120.0, VolumeBounds.usual(AT, given, cup, 1.0).leftMl(), 1e-9);
  }

  @Test
  void lossCountsAtMostTwiceWhatIsForetold() {
    WaterAccount cup = WaterAccount.NONE.seen(AT, 300, lost(150, 60));
    List<Given> given = List.of(pass(Duration.ofHours(3), 60, 100));
    assertEquals(84.0, VolumeBounds.usual(AT, given, cup, 1.0).leftMl(), 1e-9);
    WaterAccount full = WaterAccount.NONE.filled(AT, 10).seen(AT, 300, lost(50, 15));
    VolumeBounds.Bound since = VolumeBounds.usual(AT, List.of(), full, 1.0);
    assertEquals(1.2 * (2 * 15 + 10), since.mostMl(), 1e-9);
    assertEquals("since-full", since.detail());
  }

  @Test
  void eachDayIsJudgedByItself() {
    WaterAccount cup = WaterAccount.NONE.filled(AT, 0).seen(AT, 300, lost(5, 15));
    Instant next = AT.plus(Duration.ofHours(25));
    LossLog.Slot day = new LossLog.Slot(next, 90, 15, 90, 4, 4, Double.NaN);
    WaterAccount later = cup.seen(next, 210, day);
    assertEquals(5.0 + 30.0, later.full().countedG(), 1e-9);
  }

  @Test
  void weakPumpIsCountedAsItGivesAndACanAsItIsTold() {
    WaterAccount cup =
        WaterAccount.NONE.filled(AT, 0).seen(AT, 300, lost(100, 100)).given(80, false);
    assertEquals(
        (120.0 - 60.0) / 0.75, VolumeBounds.usual(AT, List.of(), cup, 0.75).leftMl(), 1e-9);
    assertEquals(
        (120.0 - 60.0 - 40.0) / 0.75,
        VolumeBounds.usual(AT, List.of(), cup.given(40, true), 0.75).leftMl(),
        1e-9);
  }

  /** Room for 100 mL: 120 mL in a day, of which a pass of 60 mL counts as what the cup shows. */
  @ParameterizedTest(name = "rises {0}, pump {1}: {2} mL left")
  @CsvSource({
    // (120 - 48) / 0.8.
    "0.8, 1.0, 90",
    // A cup that shows hardly anything is ordered a third more: (120 - 45) / 0.75.
    "0.5, 1.0, 100",
    // No more than the pump gives: (120 - 54) / 0.9.
    "1.1, 0.9, 73.333333333"
  })
  void passCountsAsTheCupsOwnWeightShows(double rises, double pumpPart, double leftMl) {
    WaterAccount cup = WaterAccount.NONE.rose(rises);
    List<Given> given = List.of(pass(Duration.ofHours(3), 60, 100));
    VolumeBounds.Bound once = VolumeBounds.usual(AT, given, cup, pumpPart);
    assertEquals((120 - pumpPart * 60) / pumpPart, once.leftMl(), 1e-6, "one pass says nothing");
    cup = cup.rose(rises);
    assertEquals(leftMl, VolumeBounds.usual(AT, given, cup, pumpPart).leftMl(), 1e-6);
  }

  @Test
  void personsCanCountsWhollyBehindAWeakPump() {
    List<Given> poured = List.of(new Given(AT.minusSeconds(60), 60, 0.0, null, 100, true));
    assertEquals(
        (120.0 - 60.0) / 0.75,
        VolumeBounds.usual(AT, poured, WaterAccount.NONE, 0.75).leftMl(),
        1e-9);
  }

  @Test
  void halfOfTheRoomIsBegunOnceInADay() {
    VolumeBounds.Bound fresh = VolumeBounds.half(AT, List.of(), WaterAccount.NONE, 1.0, 200);
    assertEquals(100.0, fresh.leftMl(), 1e-9);
    WaterAccount begun = WaterAccount.NONE.halfBegun(AT.minus(Duration.ofHours(23)), 100);
    List<Given> given = List.of(pass(Duration.ofHours(22), 95, 200));
    assertEquals(5.0, VolumeBounds.half(AT, given, begun, 1.0, 200).leftMl(), 1e-9);
    Instant later = AT.plus(Duration.ofHours(1));
    assertEquals(100.0, VolumeBounds.half(later, given, begun, 1.0, 200).leftMl(), 1e-9);
    assertTrue(begun.half().begun(AT));
  }

  /** 100 g lost: 120 mL at most; 115 mL leave just a least pass, 115.1 mL leave none. */
  @Test
  void justFreeAndJustHeld() {
    WaterAccount cup = WaterAccount.NONE.filled(AT, 0).seen(AT, 300, lost(100, 100));
    assertEquals(5.0, VolumeBounds.usual(AT, List.of(), cup.given(115, true), 1.0).leftMl(), 1e-9);
    assertTrue(VolumeBounds.usual(AT, List.of(), cup.given(115.1, true), 1.0).leftMl() < 5.0);
  }
}
