package dev.cupwarden.simulator.second;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.world.Act;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.MixSheet;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** People and rooms of the second world. */
class HousematesTest {
  private static final Instant START = Instant.parse("2026-11-15T20:00:00Z");
  private static final int CUPS = 24;
  private static final int TICKS = 120 * 288;

  private static List<TrueCup> cups() {
    List<TrueCup> cups = new ArrayList<>();
    for (int i = 0; i < CUPS; i++) {
      cups.add(
          LayeredCupPropertiesTest.cup(
              new Vessel("tall", 92, 60, 112, 13),
              new MixSheet(0.85, 0.52, 0.30, 0.15, 0.11),
              RootStage.WHITE,
              i));
    }
    return cups;
  }

  /** All acts of a winter at that level, when nothing is reported. */
  private static List<Act> winter(FaultLevel level, long seed) {
    Housemates people = new Housemates(level, ZoneOffset.UTC, START, 120, 9, seed);
    List<TrueCup> cups = cups();
    List<Act> acts = new ArrayList<>();
    for (int tick = 0; tick < TICKS; tick++) {
      if (people.comes(START.plusSeconds(300L * tick), 5, () -> false)) {
        acts.addAll(people.visit(cups, cup -> true, new int[CUPS], cup -> false));
      }
    }
    return acts;
  }

  private static Map<Class<?>, Integer> kinds(List<Act> acts) {
    Map<Class<?>, Integer> kinds = new HashMap<>();
    acts.forEach(act -> kinds.merge(act.getClass(), 1, Integer::sum));
    return kinds;
  }

  @Test
  void handsDoEverythingInAWinterAndTwiceAsMuchWithAllFaults() {
    Map<Class<?>, Integer> common = new HashMap<>();
    Map<Class<?>, Integer> all = new HashMap<>();
    for (long seed = 1; seed <= 6; seed++) {
      kinds(winter(FaultLevel.COMMON, seed))
          .forEach((kind, n) -> common.merge(kind, n, Integer::sum));
      kinds(winter(FaultLevel.ALL, seed)).forEach((kind, n) -> all.merge(kind, n, Integer::sum));
    }
    for (Class<?> kind :
        List.of(
            Act.Lift.class,
            Act.Outing.class,
            Act.HandWatering.class,
            Act.Soak.class,
            Act.Exchange.class,
            Act.Bump.class,
            Act.Lean.class,
            Act.Cover.class,
            Act.Saucer.class)) {
      assertTrue(common.getOrDefault(kind, 0) > 0, kind.getSimpleName() + " in " + common);
      assertTrue(all.get(kind) > common.get(kind), kind.getSimpleName() + ": " + all);
    }
  }

  @Test
  void withoutFaultsNobodyTouchesACup() {
    Map<Class<?>, Integer> none = kinds(winter(FaultLevel.NONE, 3));
    assertEquals(Set.of(Act.Filling.class, Act.Sighting.class), none.keySet());
  }

  @Test
  void aSoakIsToldEarlyLateAndNever() {
    int[] told = new int[3];
    for (long seed = 1; seed <= 12; seed++) {
      for (Act act : winter(FaultLevel.ALL, seed)) {
        if (act instanceof Act.Soak soak) {
          told[soak.saysAfterMin() < 0 ? 2 : soak.saysAfterMin() == 0 ? 0 : 1]++;
        }
      }
    }
    for (int each : told) {
      assertTrue(each >= 10, told[0] + " early, " + told[1] + " late, " + told[2] + " never");
    }
  }

  @Test
  void whatIsPutOnOrExchangedIsPutRightLater() {
    List<Act> acts = winter(FaultLevel.ALL, 5);
    long on = acts.stream().filter(act -> act instanceof Act.Saucer each && each.under()).count();
    long off = acts.stream().filter(act -> act instanceof Act.Saucer each && !each.under()).count();
    long out =
        acts.stream().filter(act -> act instanceof Act.Exchange each && !each.back()).count();
    long back =
        acts.stream().filter(act -> act instanceof Act.Exchange each && each.back()).count();
    assertTrue(on > 0 && off >= on - 4, on + " put under, " + off + " taken away");
    assertTrue(out > 0 && back >= out - 4, out + " exchanged, " + back + " put back");
  }

  @Test
  void anAlertIsAnsweredWithinHoursInDaysOrNotAtAll() {
    int hours = 0;
    int days = 0;
    int never = 0;
    for (long seed = 1; seed <= 150; seed++) {
      double h = answeredAfterH(seed);
      hours += h < 24 ? 1 : 0;
      days += h >= 24 && h < 200 ? 1 : 0;
      never += h >= 200 ? 1 : 0;
    }
    assertTrue(hours > 20 && days > 20 && never > 1, hours + ", " + days + ", " + never);
  }

  /** From the alert's beginning to the visit at which it is mended; at most a fortnight. */
  private static double answeredAfterH(long seed) {
    Housemates people = new Housemates(FaultLevel.NONE, ZoneOffset.UTC, START, 120, 9, seed);
    List<TrueCup> cups = List.of();
    boolean mended = false;
    int tick = 0;
    while (!mended && tick < 14 * 288) {
      tick++;
      if (people.comes(START.plusSeconds(300L * tick), 5, () -> true)) {
        mended =
            people.visit(cups(1), cup -> true, new int[1], cup -> true).stream()
                .anyMatch(act -> act instanceof Act.Mending);
      }
    }
    return tick / 12.0 + cups.size();
  }

  private static List<TrueCup> cups(int count) {
    return cups().subList(0, count);
  }

  @Test
  void theRoomSwitchesItsLampFanAndMatAndTheWindowStandsOpenInFrost() {
    int lamp = 0;
    int fan = 0;
    int mat = 0;
    int frost = 0;
    int cold = 0;
    for (long seed = 1; seed <= 8; seed++) {
      DraughtyRoom room = new DraughtyRoom(new Place(50, 0, ZoneOffset.UTC), START, 120, seed);
      Breeze before = (Breeze) room.at(START);
      double warmed = 0;
      for (int tick = 1; tick < TICKS; tick++) {
        Breeze now = (Breeze) room.at(START.plus(Duration.ofMinutes(5L * tick)));
        assertTrue(now.airC() > -15 && now.airC() < 35, "air " + now.airC());
        assertTrue(now.rhPct() >= 12 && now.rhPct() <= 98, "damp " + now.rhPct());
        lamp += Math.abs(now.lightUmolPerM2S() - before.lightUmolPerM2S()) > 40 ? 1 : 0;
        fan += Math.abs(now.windMPerS() - before.windMPerS()) > 0.4 ? 1 : 0;
        boolean turns = warmed * (now.rootC() - before.rootC()) < 0;
        mat += turns && now.rootC() > now.airC() + 1 ? 1 : 0;
        warmed = now.rootC() - before.rootC();
        frost += now.windMPerS() > 0.3 && now.airC() < before.airC() - 0.5 ? 1 : 0;
        cold += now.rootC() < 10 ? 1 : 0;
        before = now;
      }
    }
    assertTrue(lamp > 8 * 200, "lamp " + lamp);
    assertTrue(fan > 3000, "fan " + fan);
    assertTrue(mat > 500, "mat " + mat);
    assertTrue(frost > 50 && cold > 0, "window " + frost + ", cold " + cold);
  }

  @Test
  void sensorsAreALittleOff() {
    DraughtyRoom room = new DraughtyRoom(new Place(50, 0, ZoneOffset.UTC), START, 10, 4);
    Air truth = room.at(START);
    Air shown = room.shown(truth);
    assertTrue(Math.abs(shown.airC() - truth.airC()) < 1.5);
    assertTrue(Math.abs(shown.rhPct() - truth.rhPct()) < 10);
    assertTrue(shown.airC() != truth.airC());
  }
}
