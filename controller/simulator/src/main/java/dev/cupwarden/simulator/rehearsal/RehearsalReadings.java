package dev.cupwarden.simulator.rehearsal;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.simulator.world.Air;
import java.time.Instant;
import java.util.List;

/**
 * What can be seen of the bench at one tick. Arrays go by place in the list of cups and belong to
 * the rehearsal: a policy reads them within {@code decide} and keeps none.
 *
 * @param air as the sensors show it
 * @param massG gross grams; NaN where a cup was not read
 * @param tankMl mL left, by place in the order of the tanks' names
 * @param stageSaid what a person last said of each cup's roots
 * @param onBench false for cups taken out for good
 * @param orders what the person asked, as the controller takes it
 * @param personLooks the person is at the bench
 * @param personLeaves and will be gone for days
 */
public record RehearsalReadings(
    Instant at,
    Air air,
    double[] massG,
    double[] tankMl,
    RootStage[] stageSaid,
    boolean[] onBench,
    List<JsonNode> orders,
    boolean personLooks,
    boolean personLeaves) {

  /** The same with other orders. */
  RehearsalReadings with(List<JsonNode> others) {
    return new RehearsalReadings(
        at, air, massG, tankMl, stageSaid, onBench, others, personLooks, personLeaves);
  }
}
