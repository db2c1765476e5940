package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.feeding.WaterAdvice;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchSafety;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.KnownPlants;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * What is told of a bench's set-up: its file, with cups and tanks as orders have changed them, and
 * the tables of limits and alerts, from which page and orders are read. It is asked for at each
 * tick and seldom changes, so what was told last is told again.
 */
final class TellSetup {
  /** In characters: a host takes an edited text of that length in one request. */
  private static final int MOST_TOLD = 48 * 1024;

  private static final List<BenchSetup.Limit> LIMITS =
      Arrays.stream(LimitCode.values()).map(LimitCode::told).toList();
  private static final List<BenchSetup.Alert> ALERTS =
      Arrays.stream(AlertCode.values()).map(AlertCode::told).toList();

  /** As a person counts: s2 before s10. */
  private static final Comparator<String> BY_NUMBER =
      Comparator.comparing((String name) -> name.replaceAll("\\d+$", ""))
          .thenComparing(String::length)
          .thenComparing(Comparator.naturalOrder());

  private final Bench bench;
  private final Optional<BenchText> file;
  private final List<BenchText.Key> keys;
  private List<Object> changeable = List.of();
  private Optional<BenchSetup> last = Optional.empty();

  TellSetup(Bench bench, Optional<BenchText> file) {
    this.bench = bench;
    this.file = file;
    this.keys = file.map(TellSetup::keys).orElse(List.of());
  }

  private static List<BenchText.Key> keys(BenchText file) {
    try {
      return file.keys();
    } catch (SetupException impossible) {
      throw new IllegalStateException("a bench file that was read is none", impossible);
    }
  }

  BenchSetup of(BenchState state, Instant at) {
    List<Object> now = changeable(state);
    if (last.isEmpty() || !now.equals(changeable)) {
      last = Optional.of(told(state, at));
      changeable = now;
    }
    return last.get().withAt(at);
  }

  /** All of a state that a set-up tells. */
  private static List<Object> changeable(BenchState state) {
    List<Object> told = new ArrayList<>(2 * state.cups().size() + 2 * state.tanks().size() + 1);
    told.add(state.orders().watchOnly());
    for (CupState cup : state.cups().values()) {
      told.add(cup.setup());
      told.add(cup.presence().cover().on());
    }
    for (TankState tank : state.tanks().values()) {
      told.add(tank.feed());
      told.add(tank.strength());
    }
    return told;
  }

  private BenchSetup told(BenchState state, Instant at) {
    FeedingRules feeding = bench.feeding();
    return new BenchSetup(
        at,
        bench.place().map(place -> place.zone()),
        new BenchSetup.Watering(
            bench.watering().window(),
            bench.watering().passMl(),
            Elapsed.seconds(bench.watering().soak())),
        new BenchSetup.Feeding(
            feeding.floor(),
            feeding.ceiling(),
            feeding.target(),
            feeding.strength(),
            feeding.mostNMgPerL(),
            feeding.pause(),
            feeding.plan()),
        new BenchSetup.Climate(
            bench.climate().coldC(),
            bench.climate().frostC(),
            bench.climate().heatC(),
            bench.climate().rootHeatC(),
            bench.climate().rootCups()),
        each(
            bench.vessels(),
            vessel ->
                new BenchSetup.Vessel(
                    vessel.topMm(), vessel.baseMm(), vessel.depthMm(), vessel.emptyG())),
        each(
            bench.mixes(),
            mix -> new BenchSetup.Mix(mix.saturated(), mix.unavailable(), mix.leastAir())),
        each(
            bench.feeds(),
            feed ->
                new BenchSetup.Feed(
                    feed.nPct(),
                    feed.p2o5Pct(),
                    feed.k2oPct(),
                    feed.labelGPerL(),
                    Elapsed.seconds(feed.labelEvery()),
                    feed.spoonG(),
                    feed.ecMsPerCmPerGPerL())),
        bench.waterEcMsPerCm(),
        tanks(bench, state),
        each(state.cups(), cup -> cup(bench, cup)),
        plants(bench, state),
        LIMITS,
        ALERTS,
        keys,
        WaterAdvice.of(bench.water()),
        bench.board().isPresent() ? new BenchSafety(bench).runsWithout() : List.of(),
        bench.board().map(board -> free(bench, board, state)),
        state.orders().watchOnly() ? true : null,
        file.map(BenchText::yaml).filter(yaml -> yaml.length() <= MOST_TOLD));
  }

  private static BenchSetup.FreeParts free(Bench bench, BoardWiring board, BenchState state) {
    List<Cup.Wiring> taken =
        state.cups().values().stream().map(cup -> cup.setup().wiring()).toList();
    return new BenchSetup.FreeParts(
        free(board.scalesOfCups(), taken, Cup.Wiring::scale),
        free(board.valvesOfCups(bench.hose().drain()), taken, Cup.Wiring::valve),
        free(board.more().probes().keySet(), taken, Cup.Wiring::probe));
  }

  private static List<String> free(
      Collection<String> parts, List<Cup.Wiring> taken, Function<Cup.Wiring, Optional<String>> of) {
    List<String> used = taken.stream().flatMap(one -> of.apply(one).stream()).toList();
    return parts.stream().filter(part -> !used.contains(part)).sorted(BY_NUMBER).toList();
  }

  private static SortedMap<String, BenchSetup.KnownPlant> plants(Bench bench, BenchState state) {
    SortedMap<String, BenchSetup.KnownPlant> told = new TreeMap<>();
    for (CupState cup : state.cups().values()) {
      bench
          .rooting()
          .plantOf(cup.setup())
          .ifPresent(plant -> told.put(cup.setup().plant(), plant(plant)));
    }
    return told;
  }

  private static BenchSetup.KnownPlant plant(Plant plant) {
    return new BenchSetup.KnownPlant(
        plant.name(),
        plant.lineShift(),
        List.of(plant.rootC().least(), plant.rootC().most()),
        List.of(plant.rooting().days().least(), plant.rooting().days().most()),
        plant.rooting().atC(),
        plant.rooting().baseC(),
        plant.shootsFirst(),
        !plant.equals(KnownPlants.table().plants().get(plant.name())));
  }

  private static SortedMap<String, BenchSetup.Tank> tanks(Bench bench, BenchState state) {
    SortedMap<String, BenchSetup.Tank> told = new TreeMap<>();
    bench
        .tanks()
        .forEach(
            (name, tank) -> {
              TankState now = state.tanks().getOrDefault(name, TankState.of(tank));
              double belowMl = bench.belowFloatMl(name);
              told.put(
                  name,
                  new BenchSetup.Tank(
                      tank.sizeMl(),
                      Optional.ofNullable(now.feed()),
                      now.strength(),
                      belowMl > 0.0 ? belowMl : null));
            });
    return told;
  }

  private static BenchSetup.Cup cup(Bench bench, CupState cup) {
    return new BenchSetup.Cup(
        cup.setup().vessel(),
        cup.setup().mix(),
        cup.setup().plant(),
        cup.setup().struck(),
        cup.setup().stage(),
        cup.setup().cuttingG(),
        CupFrame.stageLines(bench, cup.setup()),
        cup.presence().cover().on() ? true : null,
        bench.board().isPresent() ? wired(cup.setup().wiring()) : null);
  }

  private static BenchSetup.Wired wired(Cup.Wiring wiring) {
    return new BenchSetup.Wired(wiring.scale(), wiring.valve(), wiring.probe());
  }

  private static <A, B> SortedMap<String, B> each(
      SortedMap<String, A> named, Function<A, B> toldOf) {
    SortedMap<String, B> told = new TreeMap<>();
    named.forEach((name, one) -> told.put(name, toldOf.apply(one)));
    return told;
  }
}
