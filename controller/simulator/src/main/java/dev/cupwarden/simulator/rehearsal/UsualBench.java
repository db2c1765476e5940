package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.ClimateRules;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.RootingRules;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.core.setup.WateringRules;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A bench to rehearse on without a bench file: so many freshly struck cups of two vessels and three
 * mixes, the finest of which has little more air when drained than roots need. The mixes are
 * synthetic.
 */
public final class UsualBench {
  private static final double ML_PER_US_GAL = 3785.411784;
  private static final double SPOON_G = 5.8;

  private static final List<Vessel> VESSELS =
      List.of(new Vessel("tall", 92, 60, 112, 13), new Vessel("short", 80, 55, 78, 9));
  private static final List<Mix> MIXES =
      List.of(
          new Mix("coir-perlite", 0.82, 0.12, 0.22, 1.55, 0.10, 0.10, 0.10),
          new Mix("peat-perlite", 0.85, 0.15, 0.25, 1.60, 0.15, 0.10, 0.11),
          new Mix("fine-peat", 0.90, 0.18, 0.12, 1.80, 0.18, 0.10, 0.10));
  private static final List<String> PLANTS =
      List.of("blackcurrant", "mulberry", "pomegranate", "vine", "elder");

  private UsualBench() {}

  /** With that many cups, 1 to 999. */
  public static Bench of(int count) {
    return of(count, 1);
  }

  /** The same on tanks of that part of their usual size, above 0. */
  static Bench of(int count, double tankPart) {
    if (count < 1 || count > 999) {
      throw new IllegalArgumentException("a bench has 1 to 999 cups, not " + count);
    }
    SortedMap<String, Cup> cups = new TreeMap<>();
    for (int i = 0; i < count; i++) {
      String name = String.format("C%03d", i + 1);
      Vessel vessel = VESSELS.get(i % 2);
      cups.put(name, cup(name, vessel, MIXES.get(i % 3), PLANTS.get(i % 5)));
    }
    return of(cups, VESSELS, tankPart);
  }

  /** The same bench with other cups, in vessels of those kinds and the usual mixes. */
  static Bench of(SortedMap<String, Cup> cups, List<Vessel> kinds) {
    return of(cups, kinds, 1);
  }

  private static Bench of(SortedMap<String, Cup> cups, List<Vessel> kinds, double tankPart) {
    SortedMap<String, Mix> mixes = new TreeMap<>();
    MIXES.forEach(mix -> mixes.put(mix.name(), mix));
    SortedMap<String, Vessel> vessels = new TreeMap<>();
    kinds.forEach(vessel -> vessels.put(vessel.name(), vessel));
    double labelGPerL = SPOON_G / ML_PER_US_GAL * 1000;
    Feed leafy = new Feed("leafy", 20, 10, 20, labelGPerL, Duration.ofDays(14), SPOON_G, 1.25);
    SortedMap<String, Tank> tanks = new TreeMap<>();
    double size = tankPart * Math.max(12_000, 500.0 * cups.size());
    tanks.put("feed", new Tank("feed", size / 2, Optional.of("leafy"), 0.5));
    tanks.put("plain", new Tank("plain", size, Optional.empty(), 0));
    return new Bench(
        "rehearsal",
        Optional.of(new Place(50, 0, ZoneId.of("Europe/London"))),
        WateringRules.USUAL,
        Duration.ofMinutes(5),
        FeedingRules.USUAL,
        RootingRules.USUAL,
        ClimateRules.USUAL,
        mixes,
        vessels,
        new TreeMap<>(java.util.Map.of("leafy", leafy)),
        0.30,
        tanks,
        cups,
        Optional.empty(),
        Bench.USUAL_TRAY_ML);
  }

  private static Cup cup(String name, Vessel vessel, Mix mix, String plant) {
    return new Cup(
        name,
        vessel.name(),
        mix.name(),
        plant,
        Optional.of(LocalDate.of(2026, 11, 15)),
        RootStage.STRUCK,
        12,
        Optional.empty(),
        Cup.Wiring.NONE);
  }
}
