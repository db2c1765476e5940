package dev.cupwarden.host.app;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.physics.RoomAir;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Holds every pass that the host was told of against the bench file and the true room. It shares no
 * code with the controller's limits.
 */
final class WinterReferee {
  private static final LocalTime OPENS = LocalTime.of(8, 0);
  private static final LocalTime CLOSES = LocalTime.of(16, 0);
  private static final double COLD_C = 12;
  private static final double FROST_C = 3;

  /** What the bench's sensors may be off by, beside the line that they are held against. */
  private static final double SENSOR_C = 0.5;

  private static final double ROUNDING_ML = 0.06;
  private static final Duration LABEL = Duration.ofDays(14);
  private static final Duration DAY = Duration.ofHours(24);

  /**
   * The passes of a flush are to run through and wait for no more than five minutes, from tick to
   * tick: within one a pass comes up to half a minute sooner or later.
   */
  private static final Duration FLUSH_SOAK = Duration.ofMinutes(5).minusSeconds(30);

  private static final Duration FLUSH_LASTS = Duration.ofHours(2);

  /** What a learned capacity may differ from the foretold one, for sums held against it. */
  private static final double LEARNED = 1.25;

  private static final Set<String> FED = Set.of("toughened", "circling");
  private final Bench bench;
  private final Map<String, String> stages = new TreeMap<>();
  private final Map<String, List<JsonNode>> given = new TreeMap<>();
  private final List<String> broken = new ArrayList<>();

  WinterReferee(Bench bench) {
    this.bench = bench;
    bench.cups().forEach((name, cup) -> stages.put(name, cup.stage().word()));
  }

  /** Every broken limit, in order of time. */
  List<String> judge(List<JsonNode> events, WinterTruth truth) {
    for (JsonNode event : events) {
      if (event.get("kind").asText().equals("change")) {
        JsonNode order = event.at("/data/order");
        if (order.path("kind").asText().equals("stage")) {
          stages.put(order.get("cup").asText(), order.get("stage").asText());
        }
      } else if (event.get("kind").asText().equals("dose")) {
        judge(event, truth);
      }
    }
    return broken;
  }

  private void judge(JsonNode event, WinterTruth truth) {
    JsonNode dose = event.get("data");
    Instant at = at(event);
    String cup = dose.get("cup").asText();
    boolean rescue = dose.get("why").asText().equals("rescue");
    RoomAir room = WinterRoom.at(at);
    LocalTime clock = WinterDiary.clock(at).toLocalTime();
    double ml = ml(dose);
    note(ml > bench.watering().passMl() + ROUNDING_ML, "pass", event);
    // A person stands by a flush.
    boolean flush = isFlush(event);
    boolean open = !clock.isBefore(OPENS) && clock.isBefore(CLOSES);
    note(!rescue && !flush && !open, "window", event);
    note(Math.min(room.airC(), room.rootC()) < FROST_C - SENSOR_C, "frost", event);
    note(!rescue && room.rootC() < COLD_C - SENSOR_C, "cold", event);
    List<JsonNode> before = given.computeIfAbsent(cup, name -> new ArrayList<>());
    if (!before.isEmpty()) {
      JsonNode last = before.get(before.size() - 1);
      Duration soak = flush ? FLUSH_SOAK : bench.watering().soak();
      note(at.isBefore(at(last).plus(soak)), "soak", event);
    }
    before.add(event);
    note(flush && at.isAfter(flushBegan(before).plus(FLUSH_LASTS)), "flush", event);
    double strength = dose.get("strength").asDouble();
    double availableMl = truth.availableMl(cup) * LEARNED;
    note(!flush && sum(before, at.minus(DAY), false) > 1.2 * availableMl, "day-volume", event);
    if (dose.get("feed_ml").asDouble() > 0) {
      note(!FED.contains(stages.get(cup)), "stage " + stages.get(cup), event);
      note(strength > bench.feeding().ceiling() + 1e-6, "ceiling", event);
      note(sum(before, at.minus(LABEL), true) > availableMl, "ledger", event);
    }
  }

  /** The first of the passes of a flush that came without a long pause up to the last one. */
  private static Instant flushBegan(List<JsonNode> passes) {
    int first = passes.size() - 1;
    while (first > 0
        && isFlush(passes.get(first - 1))
        && at(passes.get(first - 1)).plus(DAY).isAfter(at(passes.get(first)))) {
      first--;
    }
    return at(passes.get(first));
  }

  private static boolean isFlush(JsonNode pass) {
    return pass.at("/data/why").asText().equals("flush");
  }

  private static Instant at(JsonNode pass) {
    return Instant.parse(pass.get("at").asText());
  }

  private static double ml(JsonNode dose) {
    return dose.get("plain_ml").asDouble() + dose.get("feed_ml").asDouble();
  }

  private static double sum(List<JsonNode> passes, Instant from, boolean labels) {
    double sum = 0;
    for (JsonNode pass : passes) {
      if (at(pass).isAfter(from)) {
        JsonNode dose = pass.get("data");
        sum += ml(dose) * (labels ? dose.get("strength").asDouble() : 1);
      }
    }
    return sum;
  }

  private void note(boolean isBroken, String limit, JsonNode event) {
    if (isBroken) {
      broken.add(limit + ": " + event);
    }
  }
}
