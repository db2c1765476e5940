package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.link.SenmlPack;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.TankState;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Builds the observation that a tick decides by from what the board read, and its SenML pack for
 * the broker.
 */
final class ObservationBuilder {
  private ObservationBuilder() {}

  /** What is seen now, in the light of the state before. */
  static Observation of(
      Instant at,
      BoardReadings read,
      boolean clockInDoubt,
      List<JsonNode> orders,
      BenchState before,
      boolean hoseInDoubt,
      boolean boardFault) {
    return new Observation(
        at,
        read.airC(),
        read.rhPct(),
        read.rootC(),
        read.outdoorC(),
        OptionalDouble.empty(),
        read.massG(),
        read.theta(),
        tankMl(read, before),
        read.leak(),
        read.faults().containsKey(BoardReadings.LEAK),
        clockInDoubt,
        List.copyOf(orders),
        hoseInDoubt,
        boardFault,
        before.orders().watchOnly());
  }

  /**
   * A float that is up says only that there is at least so much: what was reckoned stands where it
   * is more.
   */
  private static SortedMap<String, Double> tankMl(BoardReadings read, BenchState before) {
    SortedMap<String, Double> tankMl = new TreeMap<>(read.tankMl());
    read.tankAtLeastMl()
        .forEach(
            (tank, atLeastMl) -> {
              TankState reckoned = before.tanks().get(tank);
              if (reckoned != null && Double.isFinite(reckoned.leftMl())) {
                tankMl.put(tank, Math.max(atLeastMl, reckoned.leftMl()));
              }
            });
    return tankMl;
  }

  /** The same as a SenML pack; none when nothing was read. */
  static Optional<String> senml(String bench, Observation seen) {
    List<SenmlRecord> pack = SenmlPack.of(bench, seen);
    return pack.isEmpty() ? Optional.empty() : Optional.of(Json.written(pack));
  }
}
