package dev.cupwarden.host.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.physics.SimulatedCup;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The person: knows the bench by the page and by their own eyes, and says on the page what they
 * did.
 */
final class WinterGrower {
  private static final Duration PATIENCE = Duration.ofMillis(200);

  /** An order that no tick has answered by then went astray. */
  private static final Duration ANSWERED_WITHIN = Duration.ofHours(6);

  private static final double FEED_STRENGTH = 0.5;
  private final SimulatedBench world;
  private final GrowersPage page;
  private final WinterDiary diary;
  private final Set<String> dark = new TreeSet<>();
  private final Map<String, Asked> open = new TreeMap<>();
  private final List<String> refused = new ArrayList<>();
  private String feed = "leafy";

  private record Asked(Instant at, String words) {}

  WinterGrower(SimulatedBench world, GrowersPage page, WinterDiary diary) {
    this.world = world;
    this.page = page;
    this.diary = diary;
  }

  /** A cup is watered by hand from now on, or no more. */
  void mind(String cup, boolean byHand) {
    if (byHand) {
      dark.add(cup);
    } else {
      dark.remove(cup);
    }
  }

  /** From now on the tank is mixed with that feed. */
  void takeUp(String otherFeed) {
    feed = otherFeed;
  }

  /**
   * A Saturday's look: roots, cups without a scale, tanks.
   *
   * @param next when the next one will be
   */
  void visit(Instant at, boolean mixesFeed, Instant next) {
    Set<String> alerts = new TreeSet<>();
    page.alerts().forEach(alert -> alerts.add(alert.get("code").asText()));
    for (JsonNode told : page.cups()) {
      look(at, told);
    }
    flush(at);
    for (JsonNode tank : page.tanks()) {
      boolean plain = tank.get("feed").isNull();
      if (plain && (toldToFill(tank.get("tank").asText()) || emptyBefore(next, tank))) {
        fill(at, tank.get("tank").asText(), tank.get("size_ml").asDouble());
      } else if (!plain && mixesFeed && wantsMixing(tank, alerts)) {
        mix(at, tank);
      }
    }
  }

  /** As the page asks where salts are high; the tray is emptied at once. */
  private void flush(Instant at) {
    Set<String> salty = new TreeSet<>();
    for (JsonNode alert : page.alerts()) {
      if (alert.get("code").asText().equals("salts-high")) {
        for (JsonNode told : page.cups()) {
          String cup = told.get("cup").asText();
          boolean named = alert.get("do").asText().contains(cup);
          if (alert.path("cup").asText("").equals(cup) || (!alert.has("cup") && named)) {
            salty.add(cup);
          }
        }
      }
    }
    if (!salty.isEmpty()) {
      ObjectNode clear = Json.MAPPER.createObjectNode().put("kind", "clear");
      say(at, clear, "the tray is emptied");
    }
    for (String cup : salty) {
      double ml = Math.rint(1.2 * world.cup(cup).availableMl());
      say(at, order("flush", cup).put("ml", ml), "flush of " + cup + ", " + Math.round(ml) + " mL");
    }
  }

  private boolean wantsMixing(JsonNode tank, Set<String> alerts) {
    boolean other = !tank.get("feed").asText().equals(feed);
    return other || alerts.contains("feed-old") || leftPart(tank) < 0.25;
  }

  private void look(Instant at, JsonNode told) {
    String cup = told.get("cup").asText();
    SimulatedCup truth = world.cup(cup);
    RootStage seen = truth.stage();
    if (!truth.alive()) {
      String because = truth.rotted() ? "rotted" : "dried";
      say(at, order("retire", cup).put("because", because), cup + " is dead: " + because);
    } else if (!told.get("stage").asText().equals(seen.word())) {
      say(
          at,
          order("stage", cup).put("stage", seen.word()),
          cup + " shows " + seen.word() + " roots");
    }
    if (dark.contains(cup) && truth.alive() && truth.depletion() > told.get("due").asDouble()) {
      double room = truth.depletion() - told.get("refill").asDouble();
      double ml = Math.rint(room * truth.availableMl());
      world.person().water(cup, ml, 0);
      say(
          at,
          order("watered", cup).put("ml", ml).put("strength", 0),
          String.format(Locale.ROOT, "%s gets %.0f mL by hand", cup, ml));
    }
  }

  private static double leftPart(JsonNode tank) {
    return tank.get("left_ml").asDouble() / tank.get("size_ml").asDouble();
  }

  /** Whether the page asks for it: the person keeps no account of tanks. */
  private boolean toldToFill(String tank) {
    for (JsonNode alert : page.alerts()) {
      boolean asks = Set.of("tank-low", "tank-empty").contains(alert.get("code").asText());
      if (asks && alert.path("tank").asText().equals(tank)) {
        return true;
      }
    }
    return false;
  }

  /** Whether the page says so: who goes away for weeks looks at that. */
  private static boolean emptyBefore(Instant next, JsonNode tank) {
    JsonNode until = tank.path("lasts_until");
    return until.isTextual() && Instant.parse(until.asText()).isBefore(next);
  }

  /** Fills a tank of plain water. */
  void fill(Instant at, String tank, double ml) {
    world.fillTo(tank, ml);
    ObjectNode filled = Json.MAPPER.createObjectNode().put("kind", "filled");
    say(at, filled.put("tank", tank).put("ml", ml), tank + " filled to " + Math.round(ml) + " mL");
  }

  /** As much as the page says will be used before it spoils. */
  private void mix(Instant at, JsonNode tank) {
    double sizeMl = tank.get("size_ml").asDouble();
    JsonNode most = tank.path("mix_most_ml");
    double ml = most.isNumber() ? Math.min(sizeMl, Math.max(1_000, most.asDouble())) : sizeMl;
    ml = Math.rint(ml);
    world.fillTo("feed", ml);
    ObjectNode filled = Json.MAPPER.createObjectNode().put("kind", "filled").put("tank", "feed");
    filled.put("ml", ml).put("feed", feed).put("strength", FEED_STRENGTH);
    String said = most.isNumber() ? Math.round(most.asDouble()) + " mL at most" : "nothing";
    say(
        at,
        filled,
        "feed mixed anew: " + Math.round(ml) + " mL of " + feed + ", the page says " + said);
  }

  private static ObjectNode order(String kind, String cup) {
    return Json.MAPPER.createObjectNode().put("kind", kind).put("cup", cup);
  }

  /** Says on the page what was done. */
  void say(Instant at, ObjectNode order, String words) {
    open.put(page.order(order), new Asked(at, words));
    diary.happened(at, words);
  }

  /** Looks for the answers to what was asked. */
  void read(Instant at) {
    for (String id : List.copyOf(open.keySet())) {
      GrowersPage.until(PATIENCE, () -> !page.outcome(id).isEmpty());
      String outcome = page.outcome(id);
      Asked asked = open.get(id);
      if (!outcome.isEmpty()) {
        open.remove(id);
        if (outcome.startsWith("refused")) {
          refused.add(asked.at() + " " + asked.words() + ": " + outcome);
        }
      } else if (at.isAfter(asked.at().plus(ANSWERED_WITHIN))) {
        throw new AssertionError("no answer to: " + asked);
      }
    }
  }

  List<String> refused() {
    return refused;
  }
}
