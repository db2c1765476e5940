package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.simulator.physics.RoomAir;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class RefereeTest {
  private static final Instant NOON = Instant.parse("2026-12-01T12:00:00Z");
  private static final RoomAir WARM = RoomAir.of(20, 50, 19, 100);

  private Referee referee;

  @BeforeEach
  void aBenchOfOneCup() {
    referee = new Referee(new Scene(UsualBench.of(1), 1), NOON);
  }

  private static RehearsalReadings readings(Instant at, RoomAir air, double massG) {
    return new RehearsalReadings(
        at,
        air,
        new double[] {massG},
        new double[0],
        new RootStage[] {RootStage.STRUCK},
        new boolean[] {true},
        List.of(),
        false,
        false);
  }

  private String judge(Watering pass, RehearsalReadings readings) {
    referee.see(readings);
    int before = referee.broken().size();
    referee.judge(pass, readings);
    return referee.broken().subList(before, referee.broken().size()).stream()
        .map(sentence -> sentence.split(" ")[2])
        .collect(Collectors.joining(" "));
  }

  private static Watering plain(double ml, String why) {
    return new Watering(0, ml, 0, 0, why);
  }

  @Test
  void aDuePassWithinTheWindowBreaksNothing() {
    assertEquals("", judge(plain(25, "due"), readings(NOON, WARM, 300)));
  }

  @Test
  void aPassLargerThanTheBenchAllowsIsSeen() {
    assertEquals("pass", judge(plain(31, "due"), readings(NOON, WARM, 300)));
  }

  @Test
  void aSecondPassBeforeTheFirstHasSoakedInIsSeen() {
    judge(plain(25, "due"), readings(NOON, WARM, 300));
    assertEquals("soak", judge(plain(25, "due"), readings(NOON.plusSeconds(660), WARM, 300)));
    assertEquals("", judge(plain(25, "due"), readings(NOON.plusSeconds(1400), WARM, 300)));
  }

  @Test
  void byNightAndInTheColdOnlyARescueMayWater() {
    Instant night = Instant.parse("2026-12-01T23:00:00Z");
    RoomAir cold = RoomAir.of(11, 50, 10, 0);
    assertEquals("window cold", judge(plain(25, "due"), readings(night, cold, 300)));
    assertEquals("", judge(plain(25, "rescue"), readings(night.plusSeconds(7200), cold, 300)));
  }

  @Test
  void aCupThatWasOutsideTodayMayBeWateredTwoHoursLonger() {
    Instant five = Instant.parse("2026-12-01T17:00:00Z");
    assertEquals("window", judge(plain(25, "due"), readings(five, WARM, 300)));
    referee.see(readings(five.plusSeconds(900), WARM, 0));
    assertEquals("", judge(plain(25, "due"), readings(five.plusSeconds(1800), WARM, 300)));
  }

  @Test
  void frostStopsEvenARescue() {
    RoomAir frost = RoomAir.of(0.5, 50, 20, 0);
    assertEquals("frost", judge(plain(25, "rescue"), readings(NOON, frost, 300)));
  }

  @Test
  void feedOnRootsThatCannotTakeItIsSeen() {
    Watering fed = new Watering(0, 10, 10, 0.25, "due");
    assertEquals("stage", judge(fed, readings(NOON, WARM, 300)));
    assertEquals(1, referee.fedTooEarly());
  }

  @Test
  void aCupNotReadForAQuarterOfAnHourIsNotWatered() {
    referee.see(readings(NOON, WARM, 300));
    RehearsalReadings unread = readings(NOON.plusSeconds(900), WARM, Double.NaN);
    assertEquals("untrusted", judge(plain(25, "due"), unread));
  }

  @Test
  void aWholeCupfulAndMoreInOneDayIsSeen() {
    String last = "";
    Instant morning = NOON.minus(Duration.ofHours(3));
    for (int i = 0; i < 28; i++) {
      last = judge(plain(25, "due"), readings(morning.plusSeconds(720L * i), WARM, 300));
    }
    assertTrue(last.contains("day-volume"), last);
  }
}
