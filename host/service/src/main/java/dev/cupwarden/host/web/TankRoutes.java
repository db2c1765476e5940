package dev.cupwarden.host.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.feeding.Nutrients;
import dev.cupwarden.core.feeding.Recipe;
import dev.cupwarden.core.feeding.Teaspoons;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.host.review.TankUse;
import dev.cupwarden.host.store.Benches.BenchRow;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Setups.CuttingRow;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** What is left in the tanks and until when, and what to weigh for the next one. */
final class TankRoutes {

  /** Two hundred cups, each watered thirty times in a week. */
  private static final int MOST_DOSES = 6_000;

  private final Store store;

  TankRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/tanks", this::tanks);
    routes.get("/api/benches/{bench}/recipe", this::recipe);
  }

  private void tanks(Context context) {
    String bench = context.pathParam("bench");
    BenchSetup setup = setupOf(context);
    JsonNode status =
        store
            .benches()
            .find(bench)
            .map(BenchRow::status)
            .map(JsonResponse::stored)
            .orElseGet(Json.MAPPER::createObjectNode);
    Instant now = status.has("at") ? Instant.parse(status.get("at").asText()) : setup.at();
    Optional<TankUse> use = recentUse(bench, now);
    ArrayNode tanks = Json.MAPPER.createArrayNode();
    setup
        .tanks()
        .forEach(
            (name, tank) -> {
              ObjectNode told = tanks.addObject().put("tank", name).put("size_ml", tank.sizeMl());
              told.put("feed", tank.feed().orElse(null)).put("strength", tank.strength());
              told.set("left_ml", status.at("/tank_ml").get(name));
              boolean plain = tank.feed().isEmpty();
              Optional<Double> mlPerD =
                  use.map(known -> plain ? known.plainMlPerD() : known.feedMlPerD());
              told.put("use_ml_per_d", mlPerD.orElse(null));
              told.put(
                  "mix_most_ml",
                  plain ? null : mlPerD.map(each -> mixMostMl(each, tank)).orElse(null));
              told.put("use_over_s", use.map(known -> known.over().toSeconds()).orElse(null));
              told.put(
                  "lasts_until",
                  mlPerD
                      .flatMap(each -> TankUse.emptyAt(leftMl(setup, status, plain), each, now))
                      .map(Instant::toString)
                      .orElse(null));
            });
    JsonResponse.json(context, tanks);
  }

  /** What is used up before it spoils, and what no pump gets at; null where nothing is used. */
  private static Double mixMostMl(double mlPerD, BenchSetup.Tank tank) {
    return mlPerD > 0 ? mlPerD * Recipe.KEEPS_DAYS + tank.hiddenMl() : null;
  }

  /**
   * What is to be had of plain water, or of feed: tanks of one kind are emptied one after another.
   */
  private static double leftMl(BenchSetup setup, JsonNode status, boolean plain) {
    return setup.tanks().entrySet().stream()
        .filter(tank -> tank.getValue().feed().isEmpty() == plain)
        .mapToDouble(
            tank ->
                tank.getValue().toBeHadMl(status.path("tank_ml").path(tank.getKey()).asDouble()))
        .sum();
  }

  private Optional<TankUse> recentUse(String bench, Instant now) {
    Instant recent = now.minus(TankUse.RECENT);
    Instant known =
        store.setups().cuttings(bench).stream()
            .map(CuttingRow::since)
            .min(Comparator.naturalOrder())
            .orElse(now);
    Instant from = known.isAfter(recent) ? known : recent;
    List<JsonNode> doses =
        store
            .events()
            .find(new Search(bench, null, "dose", from, now.plus(Duration.ofMillis(1)), MOST_DOSES))
            .stream()
            .map(EventRow::data)
            .map(JsonResponse::stored)
            .toList();
    return TankUse.of(doses, from, now);
  }

  private void recipe(Context context) {
    BenchSetup setup = setupOf(context);
    String name = RequestParameters.name(context, "feed");
    BenchSetup.Feed bag = name == null ? null : setup.feeds().get(name);
    if (bag == null) {
      throw new ApiException(
          HttpStatus.BAD_REQUEST,
          setup.feeds().isEmpty()
              ? "feed: the bench file names no feed."
              : "feed: expected one of " + String.join(", ", setup.feeds().keySet()) + ".");
    }
    Feed feed =
        new Feed(
            name,
            bag.nPct(),
            bag.p2o5Pct(),
            bag.k2oPct(),
            bag.labelGPerL(),
            Duration.ofMillis(Math.round(bag.labelEveryS() * 1000)),
            bag.spoonG(),
            bag.ecMsPerCmPerGPerL());
    try {
      Recipe recipe =
          new Recipe(
              feed,
              RequestParameters.number(context, "volume_ml"),
              RequestParameters.number(context, "strength"),
              setup.waterEcMsPerCm());
      JsonResponse.json(context, treeOf(recipe));
    } catch (IllegalArgumentException outOfRange) {
      throw new ApiException(HttpStatus.BAD_REQUEST, outOfRange.getMessage());
    }
  }

  private static ObjectNode treeOf(Recipe recipe) {
    Nutrients mgPerL = recipe.elementsMgPerL();
    ObjectNode told =
        Json.MAPPER
            .createObjectNode()
            .put("feed", recipe.feed().name())
            .put("volume_ml", recipe.volumeMl())
            .put("strength", recipe.strength())
            .put("feed_g", recipe.feedG())
            .put("n_mg_per_l", mgPerL.nMg())
            .put("p_mg_per_l", mgPerL.pMg())
            .put("k_mg_per_l", mgPerL.kMg())
            .put("ec_ms_per_cm", recipe.ecMsPerCm())
            .put("water_ec_ms_per_cm", recipe.waterEcMsPerCm())
            .put("concentrate", recipe.concentrate());
    // Less than a spoon can tell is to be weighed.
    boolean spoonCanTell = recipe.spoonCanTell();
    told.put("level_teaspoons", spoonCanTell ? recipe.levelTeaspoons() : null);
    told.put("spoons", spoonCanTell ? Teaspoons.words(recipe.levelTeaspoons()) : null);
    return told;
  }

  private BenchSetup setupOf(Context context) {
    try {
      return Json.MAPPER.readValue(RequestParameters.setup(context, store), BenchSetup.class);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds a set-up that cannot be read", damaged);
    }
  }
}
