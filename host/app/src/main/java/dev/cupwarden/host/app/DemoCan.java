package dev.cupwarden.host.app;

import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.physics.SimulatedCup;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZonedDateTime;

/**
 * A grower with a can at the demo's bench while it is only watched, once an evening and by three
 * habits: cups A get a little each time, cups B are filled once their leaves hang, cups C are
 * filled when they feel light.
 */
final class DemoCan implements TickReport.Listener {
  private static final int EVENING = 18;
  private static final double A_LITTLE_ML = 12;

  /** Depletions at which a hand tells, and at which leaves do: invented, as all of the demo. */
  private static final double FEELS_LIGHT = 0.5;

  private static final double LEAVES_HANG = 0.85;

  private final Bench bench;
  private final SimulatedBench world;
  private LocalDate watered;

  DemoCan(Bench bench, SimulatedBench world) {
    this.bench = bench;
    this.world = world;
  }

  @Override
  public void ticked(TickReport report) {
    ZonedDateTime now = at(report.at());
    if (now.getHour() == EVENING && !now.toLocalDate().equals(watered)) {
      watered = now.toLocalDate();
      report.step().state().cups().keySet().forEach(this::water);
    }
  }

  private ZonedDateTime at(Instant when) {
    return when.atZone(bench.place().orElseThrow().zone());
  }

  private void water(String name) {
    SimulatedCup cup = world.cup(name);
    if (name.startsWith("A")) {
      world.person().water(name, A_LITTLE_ML, 0);
    } else if (cup.depletion() >= (name.startsWith("B") ? LEAVES_HANG : FEELS_LIGHT)) {
      world.person().water(name, cup.depletion() * cup.availableMl(), 0);
    }
  }
}
