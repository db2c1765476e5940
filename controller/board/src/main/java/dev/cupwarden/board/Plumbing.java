package dev.cupwarden.board;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Tank;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** Which valve leads to which cup, and which from which tank. */
final class Plumbing {
  private final Bench bench;
  private final BoardWiring wiring;
  private final Set<String> ofCups;
  private SortedMap<String, Cup.Wiring> wired;

  /**
   * Checks that every valve a cup or a tank names is wired, and is its own.
   *
   * @throws BoardException with one sentence
   */
  Plumbing(Bench bench, BoardWiring wiring) throws BoardException {
    this.bench = bench;
    this.wiring = wiring;
    this.wired = bench.wirings();
    this.ofCups = wiring.valvesOfCups(bench.hose().drain());
    Map<String, String> taken = new TreeMap<>();
    for (var cup : bench.cups().values()) {
      if (cup.wiring().valve().isEmpty()) {
        continue;
      }
      String valve = cup.wiring().valve().get();
      BoardWiring.Valve wired = wiring.valves().get(valve);
      if (wired == null) {
        throw new BoardException(
            "Cup %s names valve %s, which the board does not have.".formatted(cup.name(), valve));
      }
      if (wired.tank().isPresent()) {
        throw new BoardException(
            "Cup %s names valve %s, which is tank %s's."
                .formatted(cup.name(), valve, wired.tank().get()));
      }
      String other = taken.put(valve, cup.name());
      if (other != null) {
        throw new BoardException(
            "Cups %s and %s both name valve %s.".formatted(other, cup.name(), valve));
      }
    }
    for (var valve : wiring.valves().entrySet()) {
      Optional<String> tank = valve.getValue().tank();
      if (tank.isPresent() && !bench.tanks().containsKey(tank.get())) {
        throw new BoardException(
            "Valve %s draws from tank %s, which the bench does not have."
                .formatted(valve.getKey(), tank.get()));
      }
    }
  }

  /** From now on these cups stand on the bench. */
  void stand(SortedMap<String, Cup.Wiring> cups) {
    wired = cups;
  }

  /** The cup's valve; the waste valve goes by its own name. */
  Optional<String> valveOf(String cup) {
    return Optional.ofNullable(wired.get(cup))
        .flatMap(Cup.Wiring::valve)
        .filter(ofCups::contains)
        .or(() -> bench.hose().drain().filter(cup::equals));
  }

  /**
   * From where water comes.
   *
   * @param tankValve the valve to open; none when the pump hangs in the only tank
   */
  record Source(Optional<String> tankValve) {}

  /** The way out of a tank, whatever a person has filled into it. */
  Optional<Source> source(String tank) {
    Optional<String> valve = tankValve(tank);
    boolean only = bench.tanks().size() == 1 && bench.tanks().containsKey(tank);
    return valve.isPresent() || only ? Optional.of(new Source(valve)) : Optional.empty();
  }

  /** The first tank by name that is meant for plain water. */
  Optional<String> plainTank() {
    return bench.tanks().values().stream()
        .filter(tank -> tank.feed().isEmpty())
        .map(Tank::name)
        .findFirst();
  }

  private Optional<String> tankValve(String tank) {
    return new TreeMap<>(wiring.valves())
        .entrySet().stream()
            .filter(entry -> entry.getValue().tank().equals(Optional.of(tank)))
            .map(Map.Entry::getKey)
            .findFirst();
  }
}
