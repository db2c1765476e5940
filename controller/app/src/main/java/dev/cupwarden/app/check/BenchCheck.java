package dev.cupwarden.app.check;

import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchSafety;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.TankGauge;
import dev.cupwarden.core.setup.BoardWiring.TankScale;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;

/**
 * What the bench itself shows: sensors alive, a way from a tank to each cup, tanks against tray.
 */
final class BenchCheck {
  private final Bench bench;
  private final BoardWiring wiring;
  private final BenchSafety safety;

  BenchCheck(Bench bench, BoardWiring wiring) {
    this.bench = bench;
    this.wiring = wiring;
    this.safety = new BenchSafety(bench);
  }

  /** One scan: every part that is wired must answer. */
  List<Finding> sensors(BoardReadings seen) {
    List<Finding> findings = new ArrayList<>();
    seen.faults().values().forEach(fault -> findings.add(Finding.fail("sensors", fault)));
    int scales = seen.massG().size();
    int probes = seen.theta().size();
    if (scales + probes > 0) {
      findings.add(
          Finding.ok("sensors", "%d scales and %d probes answer".formatted(scales, probes)));
    }
    if (seen.leak()) {
      findings.add(Finding.fail("sensors", "The leak sensor is wet: dry it, and find the water."));
    }
    if (wiring.more().root().isEmpty()) {
      findings.add(
          Finding.note(
              "sensors",
              "There is no root thermometer: frost and cold are judged by the air, so cups on a heat"
                  + " mat get no water in a cold room."));
    }
    return findings;
  }

  /** Every cup has a valve and every kind of water a way. */
  List<Finding> tubes() {
    List<Finding> findings = new ArrayList<>();
    safety.ways().forEach(fault -> findings.add(Finding.fail("tubes", fault)));
    findings.addAll(idleScales());
    long unused =
        wiring.valves().entrySet().stream()
            .filter(valve -> valve.getValue().tank().isEmpty())
            .filter(valve -> bench.hose().drain().filter(valve.getKey()::equals).isEmpty())
            .filter(
                valve ->
                    bench.cups().values().stream()
                        .noneMatch(
                            cup -> cup.wiring().valve().filter(valve.getKey()::equals).isPresent()))
            .count();
    if (unused > 0) {
      findings.add(
          Finding.note("tubes", unused + " valves lead to no cup: leave none of them open."));
    }
    if (findings.isEmpty()) {
      findings.add(Finding.ok("tubes", "every cup has its valve, every tank its way"));
    }
    return findings;
  }

  private List<Finding> idleScales() {
    Set<String> idle = new TreeSet<>(wiring.scales().keySet());
    bench.cups().values().forEach(cup -> cup.wiring().scale().ifPresent(idle::remove));
    for (TankGauge gauge : wiring.more().gauges().values()) {
      if (gauge instanceof TankScale under) {
        idle.remove(under.scale());
      }
    }
    return idle.stream()
        .map(
            scale ->
                Finding.note(
                    "tubes",
                    "Scale %s is under no cup and no tank: name it with its cup, or take it out."
                        .formatted(scale)))
        .toList();
  }

  /** What the file says of the parts that keep a bench safe. */
  List<Finding> safety() {
    List<Finding> findings = new ArrayList<>();
    safety.parts().forEach(fault -> findings.add(Finding.fail("parts", fault)));
    safety.notes().forEach(note -> findings.add(Finding.note("parts", note)));
    safety.waived().forEach(waiver -> findings.add(Finding.note("parts", waiver)));
    if (findings.isEmpty()) {
      findings.add(Finding.ok("parts", "heartbeat, leak line and tank levels are wired"));
    }
    return findings;
  }

  /**
   * The tray against the tanks.
   *
   * @param trayMl what the drip tray holds; none when nobody said
   */
  List<Finding> tanks(OptionalDouble trayMl) {
    Optional<String> fault = safety.tray(trayMl.orElse(Double.POSITIVE_INFINITY));
    if (fault.isPresent()) {
      return List.of(Finding.fail("tanks", fault.get()));
    }
    return List.of(
        trayMl.isPresent()
            ? Finding.ok(
                "tanks",
                "%s in tanks, a tray of %s"
                    .formatted(litres(bench.tanksMl()), litres(trayMl.getAsDouble())))
            : Finding.fail("tanks", safety.untold().orElseThrow() + " Or give --tray."));
  }

  private static String litres(double ml) {
    return String.format(Locale.ROOT, "%.1f L", ml / 1000);
  }
}
