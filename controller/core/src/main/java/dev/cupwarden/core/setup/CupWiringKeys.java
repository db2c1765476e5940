package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.TankScale;
import dev.cupwarden.core.setup.BoardWiring.Valve;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** The keys {@code scale}, {@code valve} and {@code probe}, by which a cup hangs on the board. */
final class CupWiringKeys {
  private CupWiringKeys() {}

  static Cup.Wiring wiring(Section keys, Bench bench, Collection<Cup> others)
      throws SetupException {
    Optional<String> scale = keys.maybe("scale").isEmpty() ? Optional.empty() : part(keys, "scale");
    Optional<String> valve = keys.maybe("valve").isEmpty() ? Optional.empty() : part(keys, "valve");
    Optional<String> probe = keys.maybe("probe").isEmpty() ? Optional.empty() : part(keys, "probe");
    if (scale.isPresent()) {
      Entry named = keys.need("scale", "");
      BoardWiring board = board(named, bench);
      named.oneOf("a scale of the board", board.scales().keySet());
      for (var gauge : board.more().gauges().entrySet()) {
        if (gauge.getValue() instanceof TankScale tank && tank.scale().equals(scale.get())) {
          throw named.refuse(named.found() + " is already under the tank " + gauge.getKey());
        }
      }
      refuseShared(named, scale.get(), others, Cup.Wiring::scale);
    }
    if (valve.isPresent()) {
      Entry named = keys.need("valve", "");
      Map<String, Valve> valves = board(named, bench).valves();
      named.oneOf("a valve of the board", valves.keySet());
      if (valves.get(valve.get()).tank().isPresent()) {
        throw named.refuse(named.found() + " is the valve of a tank, not of a cup");
      }
      refuseShared(named, valve.get(), others, Cup.Wiring::valve);
    }
    if (probe.isPresent()) {
      Entry named = keys.need("probe", "");
      named.oneOf("a probe of the board", board(named, bench).more().probes().keySet());
      refuseShared(keys.need("probe", ""), probe.get(), others, Cup.Wiring::probe);
    }
    return new Cup.Wiring(scale, valve, probe);
  }

  private static Optional<String> part(Section keys, String key) throws SetupException {
    return Optional.of(keys.need(key, "").safeName());
  }

  private static BoardWiring board(Entry named, Bench bench) throws SetupException {
    return bench
        .board()
        .orElseThrow(() -> named.refuse(named.found() + " is unknown: there is no section board"));
  }

  private static void refuseShared(
      Entry named, String part, Collection<Cup> others, Function<Cup.Wiring, Optional<String>> of)
      throws SetupException {
    for (Cup other : others) {
      if (of.apply(other.wiring()).equals(Optional.of(part))) {
        throw named.refuse(named.found() + " is already that of cup " + other.name());
      }
    }
  }
}
