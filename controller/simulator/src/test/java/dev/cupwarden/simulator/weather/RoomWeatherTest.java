package dev.cupwarden.simulator.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Place;
import dev.cupwarden.simulator.physics.RoomAir;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class RoomWeatherTest {
  private static final Place PLACE = new Place(50, 0, ZoneOffset.UTC);
  private static final Instant START = Instant.parse("2026-11-15T00:00:00Z");
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final int DAYS = 120;

  @Test
  void aWinterHasWarmDaysCoolNightsAndAColdSpell() {
    double dayC = 0;
    double nightC = 0;
    int coldSeeds = 0;
    for (int seed = 0; seed < 10; seed++) {
      RoomWeather weather = new RoomWeather(PLACE, START, DAYS, seed);
      boolean cold = false;
      for (int tick = 0; tick < DAYS * 288; tick++) {
        RoomAir air = weather.at(START.plus(TICK.multipliedBy(tick)));
        assertTrue(air.airC() > -5 && air.airC() < 32, () -> "air " + air);
        assertTrue(air.rhPct() >= 15 && air.rhPct() <= 95, () -> "air " + air);
        assertTrue(air.vpdKpa() >= 0);
        dayC += tick % 288 == 180 ? air.airC() : 0;
        nightC += tick % 288 == 60 ? air.airC() : 0;
        cold |= air.rootC() < 12;
      }
      coldSeeds += cold ? 1 : 0;
    }
    assertEquals(20, dayC / (10 * DAYS), 2);
    assertTrue(nightC < dayC - 10 * DAYS, nightC + " " + dayC);
    assertTrue(coldSeeds >= 6, "winters with a cold spell: " + coldSeeds);
  }

  @Test
  void theSunStandsHighestAtNoonAndNotByNight() {
    RoomWeather weather = new RoomWeather(PLACE, START, DAYS, 1);
    double midnight = weather.at(START).lightUmolPerM2S();
    double noon = weather.at(START.plus(Duration.ofHours(12))).lightUmolPerM2S();
    double evening = weather.at(START.plus(Duration.ofHours(17))).lightUmolPerM2S();
    assertEquals(0, midnight);
    assertTrue(noon > evening, noon + " " + evening);
  }

  @Test
  void theMixFollowsTheAirWithALag() {
    RoomWeather weather = new RoomWeather(PLACE, START, DAYS, 2);
    double airSwing = 0;
    double rootSwing = 0;
    double lastAir = Double.NaN;
    double lastRoot = Double.NaN;
    for (int tick = 0; tick < 30 * 288; tick++) {
      RoomAir air = weather.at(START.plus(TICK.multipliedBy(tick)));
      if (tick > 0) {
        airSwing += Math.abs(air.airC() - lastAir);
        rootSwing += Math.abs(air.rootC() - lastRoot);
      }
      lastAir = air.airC();
      lastRoot = air.rootC();
    }
    assertTrue(rootSwing < 0.9 * airSwing, rootSwing + " " + airSwing);
  }
}
