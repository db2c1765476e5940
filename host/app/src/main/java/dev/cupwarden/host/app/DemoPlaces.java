package dev.cupwarden.host.app;

import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.simulator.SimulatedBench;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeSet;

/**
 * The demo's grower, who puts on the bench what an order adds, and takes away what it takes out.
 */
final class DemoPlaces implements TickReport.Listener {
  private final SimulatedBench world;
  private final Set<String> standing;

  /**
   * @param standing names of the cups that stand in the world
   */
  DemoPlaces(SimulatedBench world, Set<String> standing) {
    this.world = world;
    this.standing = new TreeSet<>(standing);
  }

  @Override
  public void ticked(TickReport report) {
    SortedMap<String, CupState> told = report.step().state().cups();
    for (String cup : Set.copyOf(standing)) {
      if (!told.containsKey(cup)) {
        world.takeOut(cup);
        standing.remove(cup);
      }
    }
    told.forEach(
        (name, cup) -> {
          if (standing.add(name)) {
            world.place(cup.setup());
          }
        });
  }
}
