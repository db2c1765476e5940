package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.substrate.VanGenuchten;
import dev.cupwarden.simulator.faults.CupScale;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.grower.Grower;
import dev.cupwarden.simulator.physics.FeedChemistry;
import dev.cupwarden.simulator.physics.SimulatedCup;
import dev.cupwarden.simulator.second.DampCell;
import dev.cupwarden.simulator.second.DraughtyRoom;
import dev.cupwarden.simulator.second.Housemates;
import dev.cupwarden.simulator.second.LayeredCup;
import dev.cupwarden.simulator.weather.RoomWeather;
import dev.cupwarden.simulator.world.Cell;
import dev.cupwarden.simulator.world.MixSheet;
import dev.cupwarden.simulator.world.Person;
import dev.cupwarden.simulator.world.Room;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The worlds that one can rehearse in: what their cups, rooms, scales and people are made of. */
public enum World {
  /** One store of water in each cup; rules and this world have grown up together. */
  FIRST {
    @Override
    TrueCup cup(Bench bench, Cup cup, Optional<Feed> feed, long seed) {
      double waterEc = bench.waterEcMsPerCm();
      return new SimulatedCup(
          bench.vessels().get(cup.vessel()),
          bench.mixes().get(cup.mix()),
          cup,
          feed.map(bag -> FeedChemistry.of(bag, waterEc))
              .orElseGet(() -> FeedChemistry.plain(waterEc)),
          seed);
    }

    @Override
    Room room(Place place, Instant start, int days, long seed) {
      return new RoomWeather(place, start, days, seed);
    }

    @Override
    Cell cell(boolean spikes, long seed) {
      return new CupScale(spikes, seed);
    }

    @Override
    Person person(FaultLevel level, ZoneId zone, Instant start, int days, int tripDays, long seed) {
      return new Grower(level, zone, start, days, tripDays, seed);
    }
  },
  /** Layers, capillary exchange and other people; written apart from rules and first world. */
  SECOND {
    @Override
    TrueCup cup(Bench bench, Cup cup, Optional<Feed> feed, long seed) {
      return new LayeredCup(
          bench.vessels().get(cup.vessel()),
          sheet(bench.mixes().get(cup.mix())),
          cup,
          feed,
          bench.waterEcMsPerCm(),
          seed);
    }

    @Override
    Room room(Place place, Instant start, int days, long seed) {
      return new DraughtyRoom(place, start, days, seed);
    }

    @Override
    Cell cell(boolean spikes, long seed) {
      return new DampCell(spikes, seed);
    }

    @Override
    Person person(FaultLevel level, ZoneId zone, Instant start, int days, int tripDays, long seed) {
      return new Housemates(level, zone, start, days, tripDays, seed);
    }
  };

  /** One cup of the bench in truth, which is drawn from the seed. */
  abstract TrueCup cup(Bench bench, Cup cup, Optional<Feed> feed, long seed);

  /** The air for so many days from the start. */
  abstract Room room(Place place, Instant start, int days, long seed);

  /** One scale, with or without now and then a spike. */
  abstract Cell cell(boolean spikes, long seed);

  /** Whoever tends the bench, with one journey of so many days. */
  abstract Person person(
      FaultLevel level, ZoneId zone, Instant start, int days, int tripDays, long seed);

  /** As it is written on the command line. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The world of that word, if there is one. */
  public static Optional<World> of(String word) {
    return Arrays.stream(values()).filter(world -> world.word().equals(word)).findFirst();
  }

  /** What a laboratory would tell of the mix, if the file's curve is right. */
  static MixSheet sheet(Mix mix) {
    VanGenuchten curve = VanGenuchten.of(mix);
    return new MixSheet(
        mix.saturated(),
        curve.theta(10),
        curve.theta(50),
        mix.unavailable(),
        mix.dryDensityGPerMl());
  }
}
