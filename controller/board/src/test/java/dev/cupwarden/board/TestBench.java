package dev.cupwarden.board;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.AirSensor;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.MuxChannel;
import dev.cupwarden.core.setup.BoardWiring.PumpWiring;
import dev.cupwarden.core.setup.BoardWiring.Scale;
import dev.cupwarden.core.setup.BoardWiring.Valve;
import dev.cupwarden.core.setup.ClimateRules;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.RootingRules;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.core.setup.WateringRules;
import dev.cupwarden.simulator.VirtualTime;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A wired bench of so many cups for tests, eight to a switch, plain and feed tank with a valve
 * each.
 */
final class TestBench {
  static final Instant START = Instant.parse("2027-02-14T08:00:00Z");
  static final int PUMP = 5;
  static final int PLAIN_VALVE = 6;
  static final int FEED_VALVE = 7;
  static final double ML_PER_S = 1.5;

  /** Check values: a 1 kg, 1 mV/V cell at gain 128. */
  static final double COUNTS_PER_G = 2147.48;

  private TestBench() {}

  static int cupValve(int cup) {
    return 10 + cup;
  }

  static Bench of(int cups) {
    return with(wiring(cups), cups);
  }

  static BoardWiring wiring(int cups) {
    Map<String, Scale> scales = new TreeMap<>();
    Map<String, Valve> valves = new TreeMap<>();
    for (int i = 0; i < cups; i++) {
      BusPlace place = new BusPlace(0x2A, Optional.of(new MuxChannel(0x70 + i / 8, i % 8)));
      scales.put(scaleName(i), new Scale("nau7802", place, COUNTS_PER_G, 84_213));
      valves.put("V" + cupName(i), new Valve(cupValve(i), Optional.empty()));
    }
    valves.put("plain", new Valve(PLAIN_VALVE, Optional.of("plain")));
    valves.put("feed", new Valve(FEED_VALVE, Optional.of("feed")));
    AirSensor air = new AirSensor("sht3x", new BusPlace(0x44, Optional.empty()));
    return new BoardWiring(1, scales, Optional.of(air), new PumpWiring(PUMP, ML_PER_S), valves);
  }

  static String cupName(int cup) {
    return "A" + (cup + 1);
  }

  static String scaleName(int cup) {
    return "K" + (cup + 1);
  }

  static Bench with(BoardWiring wiring, int count) {
    SortedMap<String, Cup> cups = new TreeMap<>();
    for (int i = 0; i < count; i++) {
      cups.put(cupName(i), cup(i));
    }
    Mix mix = new Mix("coir-perlite", 0.82, 0.12, 0.22, 1.55, 0.10, 0.10, 0.10);
    Vessel vessel = new Vessel("tall", 92, 60, 112, 13);
    Feed feed = new Feed("leafy", 20, 10, 20, 1.3, Duration.ofDays(14), 5.8, 1.25);
    SortedMap<String, Tank> tanks = new TreeMap<>();
    tanks.put("plain", new Tank("plain", 12_000, Optional.empty(), 0));
    tanks.put("feed", new Tank("feed", 4_000, Optional.of("leafy"), 0.5));
    return new Bench(
        "back-room",
        Optional.empty(),
        WateringRules.USUAL,
        Duration.ofMinutes(5),
        FeedingRules.USUAL,
        RootingRules.USUAL,
        ClimateRules.USUAL,
        new TreeMap<>(Map.of("coir-perlite", mix)),
        new TreeMap<>(Map.of("tall", vessel)),
        new TreeMap<>(Map.of("leafy", feed)),
        0.3,
        tanks,
        cups,
        Optional.of(wiring),
        Bench.USUAL_TRAY_ML);
  }

  private static Cup cup(int i) {
    Cup.Wiring wiring =
        new Cup.Wiring(Optional.of(scaleName(i)), Optional.of("V" + cupName(i)), Optional.empty());
    return new Cup(
        cupName(i),
        "tall",
        "coir-perlite",
        "blackcurrant",
        Optional.empty(),
        RootStage.TOUGHENED,
        14,
        Optional.empty(),
        wiring);
  }

  /** The board's time is the simulated world's. */
  static Pace pace(VirtualTime time) {
    return new Pace() {
      @Override
      public long nanos() {
        return time.nanos();
      }

      @Override
      public void until(long nanos) {
        time.advanceTo(nanos);
      }

      @Override
      public Repeating every(Duration period, Runnable task) {
        return time.every(period, task)::close;
      }
    };
  }
}
