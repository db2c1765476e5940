package dev.cupwarden.simulator.rehearsal;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.simulator.world.Act;
import dev.cupwarden.simulator.world.Person;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** Does what the person decided, and writes the orders by which the controller is told of it. */
final class PersonAtBench {
  /** Below this part of its size, or after that many days, a tank is mixed anew. */
  private static final double LOW = 0.7;

  private static final int FEED_DAYS = 10;

  /** What a person mends at a cup, by the alert's code. */
  private static final Set<String> MENDABLE =
      words(
          AlertCode.DOSE_SHORT,
          AlertCode.DOSE_OVER,
          AlertCode.SHEDS_WATER,
          AlertCode.VALVE_LEAKING,
          AlertCode.SCALE_STUCK,
          AlertCode.SCALE_NOISY,
          AlertCode.SCALE_SILENT,
          AlertCode.SCALE_OUT_OF_RANGE,
          AlertCode.SCALE_DRIFTING,
          AlertCode.BLIND_RATION,
          AlertCode.CUPS_SWAPPED);

  private static final Set<String> SHEDS = words(AlertCode.SHEDS_WATER);

  /** As the alert asks: half an hour, 3 cm deep; then it drains for a while. */
  private static final int SOAK_MIN = 30;

  private static final double SOAK_CM = 3;
  private static final int DRAINS_MIN = 60;

  /** Told of a cup, but it is the pump that a person then looks after. */
  private static final Set<String> PUMP = words(AlertCode.PUMP_RUNNING_ON);

  private final Scene scene;
  private final Stand stand;
  private final Person grower;
  private final AlertJudge alerts;
  private final ZoneId zone;
  private final int tickMin;
  private final boolean[] outingTold;
  private final List<Soaking> soaking = new ArrayList<>();
  private Instant mixed;
  private double handMl;
  private int orderCount;
  private List<JsonNode> orders = List.of();

  PersonAtBench(Scene scene, Stand stand, Person grower, AlertJudge alerts, Instant start) {
    this.scene = scene;
    this.stand = stand;
    this.grower = grower;
    this.alerts = alerts;
    this.zone = scene.zone();
    this.tickMin = (int) Math.max(1, scene.bench().tick().toMinutes());
    this.outingTold = new boolean[scene.count()];
    this.mixed = start;
  }

  private static Set<String> words(AlertCode... codes) {
    return Arrays.stream(codes).map(AlertCode::word).collect(Collectors.toUnmodifiableSet());
  }

  /**
   * Comes, or not; returns whether they came. The orders of this tick are then in {@link #orders}.
   */
  boolean tick(Instant at, long tick) {
    orders = List.of();
    for (int cup = 0; cup < scene.count(); cup++) {
      if (outingTold[cup] && stand.returns(cup, tick)) {
        outingTold[cup] = false;
        order("back", scene.names().get(cup));
      }
    }
    soaking.removeIf(each -> each.goesOn(tick));
    if (!grower.comes(at, tickMin, this::anyReported)) {
      return false;
    }
    int[] told = new int[scene.count()];
    for (int cup = 0; cup < told.length; cup++) {
      told[cup] = stand.said()[cup].ordinal();
    }
    List<Act> acts =
        grower.visit(
            scene.cups(),
            cup -> stand.present(cup, tick),
            told,
            cup -> alerts.active(cup, MENDABLE));
    acts.forEach(act -> perform(act, at, tick));
    if (pumpReported()) {
      order("clear", null);
    }
    return true;
  }

  private boolean anyReported() {
    boolean reported = alerts.active(AlertJudge.BENCH, MENDABLE);
    for (int cup = 0; cup < scene.count() && !reported; cup++) {
      reported = alerts.active(cup, MENDABLE);
    }
    return reported;
  }

  private boolean pumpReported() {
    boolean reported = alerts.active(AlertJudge.BENCH, MENDABLE);
    for (int cup = 0; cup < scene.count(); cup++) {
      reported |= alerts.active(cup, PUMP);
    }
    return reported;
  }

  private void perform(Act act, Instant at, long tick) {
    if (act instanceof Act.Sighting seen) {
      stand.said()[seen.cup()] = seen.stage();
      order("stage", name(seen.cup())).put("stage", seen.stage().word());
    } else if (act instanceof Act.Lift lift) {
      stand.takeAway(lift.cup(), tick + ticks(lift.minutes()));
    } else if (act instanceof Act.Outing outing) {
      stand.takeAway(outing.cup(), tick + ticks(outing.minutes()), outing.told());
      if (outing.told()) {
        outingTold[outing.cup()] = true;
        order("away", name(outing.cup()));
      }
    } else if (act instanceof Act.HandWatering water) {
      scene.cup(water.cup()).give(water.ml(), water.strength());
      handMl += water.ml();
      if (water.told()) {
        order("watered", name(water.cup()))
            .put("ml", Math.rint(water.ml()))
            .put("strength", water.strength());
      }
    } else if (act instanceof Act.Removal dead) {
      stand.remove(dead.cup());
      order("retire", name(dead.cup())).put("because", dead.rotted() ? "rotted" : "dried");
    } else if (act instanceof Act.Mending mending) {
      if (alerts.active(mending.cup(), SHEDS) && scene.cup(mending.cup()).canStandInWater()) {
        Act.Soak soak = new Act.Soak(mending.cup(), SOAK_MIN, SOAK_CM, DRAINS_MIN);
        soaking.add(new Soaking(soak, tick));
      }
      stand.mend(mending.cup());
      order("clear", name(mending.cup()));
    } else if (act instanceof Act.Filling) {
      fill(at);
    } else {
      handle(act, tick);
    }
  }

  /** What only clumsier people do. */
  private void handle(Act act, long tick) {
    if (act instanceof Act.Soak soak) {
      soaking.add(new Soaking(soak, tick));
    } else if (act instanceof Act.Exchange pair) {
      exchange(pair);
    } else if (act instanceof Act.Bump bump) {
      stand.bump(bump.place(), bump.grams());
    } else if (act instanceof Act.Lean lean) {
      stand.lean(lean.place(), lean.grams(), tick + ticks(lean.minutes()));
    } else if (act instanceof Act.Cover cover) {
      scene.cup(cover.cup()).cover(cover.on());
    } else if (act instanceof Act.Saucer saucer) {
      scene.cup(saucer.cup()).saucer(saucer.under());
    }
  }

  /** Whoever came between may have put them right already. */
  private void exchange(Act.Exchange pair) {
    int from = pair.back() ? pair.other() : pair.place();
    int to = pair.back() ? pair.place() : pair.other();
    if (stand.cupOn(pair.place()) == from && stand.cupOn(pair.other()) == to) {
      stand.swap(pair.place(), pair.other());
    }
  }

  /** A cup in the sink, and what is said of it afterwards. */
  private final class Soaking {
    private final int cup;
    private final long outTick;
    private final long saysTick;

    Soaking(Act.Soak soak, long tick) {
      this.cup = soak.cup();
      this.outTick = tick + ticks(soak.minutes());
      this.saysTick = soak.saysAfterMin() < 0 ? -1 : outTick + ticks(soak.saysAfterMin());
      stand.takeAway(cup, outTick);
      scene.cup(cup).standInWater(soak.depthCm());
    }

    /** Comes out of the sink, or is spoken of; returns whether that was all. */
    boolean goesOn(long tick) {
      if (tick == outTick) {
        scene.cup(cup).standInWater(0);
      }
      if (tick == saysTick && stand.onBench()[cup]) {
        order("drained", name(cup));
      }
      return tick >= Math.max(outTick, saysTick);
    }
  }

  private void fill(Instant at) {
    Tanks tanks = stand.tanks();
    boolean old = at.isAfter(mixed.plusSeconds(FEED_DAYS * 86_400L));
    for (int i = 0; i < tanks.count(); i++) {
      Tank tank = tanks.tank(i);
      boolean low = tanks.leftMl(i) < LOW * tank.sizeMl();
      if (low || (old && tank.feed().isPresent())) {
        tanks.fill(i);
        ObjectNode order = order("filled", null).put("tank", tank.name()).put("ml", tank.sizeMl());
        tank.feed().ifPresent(feed -> order.put("feed", feed).put("strength", tank.strength()));
      }
    }
    mixed = old ? at : mixed;
  }

  private ObjectNode order(String kind, String cup) {
    ObjectNode order = JsonNodeFactory.instance.objectNode();
    order.put("id", "p-" + ++orderCount).put("kind", kind);
    if (cup != null) {
      order.put("cup", cup);
    }
    if (orders.isEmpty()) {
      orders = new ArrayList<>();
    }
    orders.add(order);
    return order;
  }

  private long ticks(int minutes) {
    return Math.max(1, Math.round((double) minutes / tickMin));
  }

  private String name(int cup) {
    return scene.names().get(cup);
  }

  List<JsonNode> orders() {
    return orders;
  }

  /** Whether the person, at the bench now, leaves for days. */
  boolean leaves(Instant at) {
    return grower.away(at.atZone(zone).toLocalDate().plusDays(1));
  }

  /** Water given from a can so far, mL. */
  double handMl() {
    return handMl;
  }
}
