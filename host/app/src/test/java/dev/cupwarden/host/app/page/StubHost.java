package dev.cupwarden.host.app.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.feeding.Teaspoons;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Window;
import dev.cupwarden.core.substrate.DryDownSegments.Weighing;
import dev.cupwarden.core.substrate.DryDowns;
import dev.cupwarden.host.review.DryDownAnswer;
import dev.cupwarden.host.web.WebServer;
import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.sse.SseClient;
import io.javalin.http.staticfiles.Location;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.CopyOnWriteArrayList;

/**
 * A host of canned data behind the real page, for situations that a real bench shows rarely: two
 * hundred cups, many troubles at once, an empty store, a host that goes away and comes back.
 */
final class StubHost implements AutoCloseable {
  static final String BENCH = "attic";

  /** Stricter than {@code default-src 'self'}: only what the page needs. */
  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self';"
          + " base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

  /** The bench's own time: nowhere near this machine's, as in a demo that runs fast. */
  static final Instant NOW = Instant.parse("2027-02-14T08:05:00Z");

  final Map<String, CannedCup> cups = new TreeMap<>();
  final List<AlertNotice> alerts = new ArrayList<>();
  final List<Event> pastAlerts = new ArrayList<>();
  final List<ObjectNode> orders = new CopyOnWriteArrayList<>();

  /** Answers of dry-downs by cup. */
  final Map<String, String> dryDowns = new ConcurrentHashMap<>();

  final Set<String> seen = new ConcurrentSkipListSet<>();
  private final List<ObjectNode> retired = new ArrayList<>();
  Instant now = NOW;
  boolean empty;
  boolean knowsSetup = true;
  boolean wholeBenchHeld;
  boolean takes = true;
  boolean watched;
  Optional<String> file = Optional.empty();
  List<String> runsWithout = List.of("Runs without leak: the bench stands in a shower tray");
  List<String> freeScales = List.of("s13", "s14");
  List<String> freeValves = List.of("v13", "v14");
  boolean low;
  private final List<SseClient> listeners = new CopyOnWriteArrayList<>();
  private Javalin server;
  private int port;
  private long seq;

  static StubHost withCups(int count) {
    return unserved(count).started();
  }

  /** Its cups alone, for another host to tell of. */
  static StubHost unserved(int count) {
    StubHost host = new StubHost();
    for (int i = 0; i < count; i++) {
      host.put(i, CannedCup.Fate.WELL);
    }
    return host;
  }

  /** Twelve cups, of which several are in trouble, held or away. */
  static StubHost troubled() {
    StubHost host = new StubHost();
    for (int i = 0; i < 12; i++) {
      host.put(i, i < 6 ? CannedCup.Fate.values()[i] : CannedCup.Fate.WELL);
    }
    host.alert("near-dry", "A2", 0.83, 0.8, "Water it by hand, then look at its drip.");
    host.alert("wet-too-long", "A3", 49, 48, "Lift it out and let it drain; look for rot.");
    host.alert("scale-stuck", "A4", 47, 45, "Lift the cup and put it back.");
    host.retired("A13", "mulberry", "rotted");
    host.retired("A14", "mulberry", "rooted");
    host.alert("tank-low", null, 380, 500, "Fill the tank “plain”.");
    return host.started();
  }

  /** A store that has never heard of a bench. */
  static StubHost empty() {
    StubHost host = new StubHost();
    host.empty = true;
    return host.started();
  }

  private void put(int index, CannedCup.Fate fate) {
    CannedCup cup = new CannedCup(BENCH, index, fate, now);
    cups.put(cup.name, cup);
  }

  private void alert(String code, String cup, double value, double threshold, String todo) {
    Instant since = now.minusSeconds(5400);
    alerts.add(new AlertNotice(code, cup, "raised", since, value, threshold, todo));
    pastAlerts.add(
        event(
            "alert",
            cup,
            new AlertNotice(
                code, cup, "raised", since.minusSeconds(300_000), value, threshold, todo),
            since.minusSeconds(300_000)));
    pastAlerts.add(
        event(
            "alert",
            cup,
            new AlertNotice(
                code, cup, "cleared", since.minusSeconds(300_000), value, threshold, todo),
            since.minusSeconds(200_000)));
  }

  private Event event(String kind, String cup, Object data, Instant at) {
    seq++;
    return new Event("e1", seq, at, kind, cup, Json.MAPPER.valueToTree(data));
  }

  private StubHost started() {
    server = Javalin.create(this::configure).start("127.0.0.1", port);
    port = server.port();
    return this;
  }

  void goAway() {
    listeners.forEach(SseClient::close);
    listeners.clear();
    server.stop();
  }

  void comeBack() {
    started();
  }

  String address() {
    return "http://127.0.0.1:" + port + "/";
  }

  private void configure(JavalinConfig config) {
    config.startup.showJavalinBanner = false;
    config.staticFiles.add(
        files -> {
          files.hostedPath = "/";
          files.directory = WebServer.PAGE;
          files.location = Location.CLASSPATH;
        });
    config.routes.before(context -> context.header("Content-Security-Policy", POLICY));
    config.routes.get("/lib/uplot/{file}", StubHost::chartLibrary);
    config.routes.get(
        "/api/session",
        context -> json(context, Json.MAPPER.readTree("{\"asks\":false,\"role\":\"act\"}")));
    config.routes.get("/api/host", context -> json(context, state()));
    config.routes.get("/api/benches/{bench}/tanks", context -> json(context, tanks()));
    config.routes.get("/api/benches/{bench}/recipe", this::recipe);
    config.routes.get("/api/benches/{bench}/given", this::given);
    config.routes.get("/api/benches/{bench}/climate", this::climate);
    config.routes.get("/api/benches", context -> json(context, benches()));
    config.routes.get("/api/benches/{bench}/cups", context -> json(context, statuses()));
    config.routes.get("/api/benches/{bench}/cups/{cup}/weights", this::weights);
    config.routes.get("/api/benches/{bench}/cups/{cup}/dry-downs", this::dryDowns);
    config.routes.get("/api/benches/{bench}/events", this::events);
    config.routes.get("/api/benches/{bench}/alerts", context -> json(context, openAlerts()));
    config.routes.get("/api/benches/{bench}/cuttings", this::cuttings);
    config.routes.get("/api/benches/{bench}/cups/{cup}/reasons", this::reasons);
    config.routes.get(
        "/api/benches/{bench}/cups/{cup}/course",
        context ->
            json(
                context,
                cups.get(context.pathParam("cup"))
                    .course(
                        epoch(context, "from").orElse(0.0),
                        epoch(context, "to").orElse(Double.MAX_VALUE))));
    config.routes.get("/api/benches/{bench}/cups/{cup}/notes", context -> json(context, List.of()));
    config.routes.post("/api/benches/{bench}/acknowledgements", this::acknowledge);
    config.routes.get("/api/benches/{bench}/setup", this::setup);
    config.routes.get("/api/benches/{bench}/orders", context -> json(context, orders));
    config.routes.post("/api/benches/{bench}/orders", this::order);
    config.routes.sse("/api/live", this::listen);
  }

  /**
   * From the webjar itself, whose folders have no entries of their own that a file handler could
   * find.
   */
  private static void chartLibrary(Context context) {
    String file = context.pathParam("file");
    context
        .contentType(file.endsWith(".css") ? "text/css" : "text/javascript")
        .result(
            StubHost.class.getResourceAsStream(
                "/META-INF/resources/webjars/uplot/1.6.30/dist/" + file));
  }

  private ObjectNode state() {
    return Json.MAPPER
        .createObjectNode()
        .put("takes", takes)
        .put("since", NOW.toString())
        .put("free_mb", low ? 480.0 : 12_000.0)
        .put("low", low);
  }

  /** How its store is, from now on. */
  void store(boolean takes, boolean low) {
    this.takes = takes;
    this.low = low;
    listeners.forEach(listener -> listener.sendEvent("host", state().toString()));
  }

  private void listen(SseClient client) {
    client.keepAlive();
    listeners.add(client);
    client.onClose(() -> listeners.remove(client));
  }

  boolean isHeard() {
    return !listeners.isEmpty();
  }

  private static void json(Context context, Object value) {
    try {
      context.contentType("application/json").result(Json.MAPPER.writeValueAsString(value));
    } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private List<Object> benches() {
    if (empty) {
      return List.of();
    }
    return List.of(
        Map.of(
            "bench",
            BENCH,
            "presence",
            new Presence("online", now.minusSeconds(86_400)),
            "status",
            status()));
  }

  BenchStatus status() {
    TreeMap<String, Double> tanks = new TreeMap<>(Map.of("plain", 7400.0, "feed", 1250.0));
    List<String> held =
        cups.values().stream()
            .filter(cup -> cup.status.state() == CupActivity.HELD)
            .map(cup -> cup.name)
            .toList();
    return new BenchStatus(
        now, 20.6, 48.0, 18.9, 9.5, tanks, wholeBenchHeld ? List.of("*") : held, 300, "0.1.0");
  }

  private List<Object> statuses() {
    return cups.values().stream().<Object>map(cup -> cup.status).toList();
  }

  private void weights(Context context) {
    CannedCup cup = cups.get(context.pathParam("cup"));
    double from = epoch(context, "from").orElse(0.0);
    double to = epoch(context, "to").orElse(Double.MAX_VALUE);
    List<Double> at = new ArrayList<>();
    List<Double> mass = new ArrayList<>();
    for (int i = 0; i < cup.at.size(); i++) {
      if (cup.at.get(i) >= from && cup.at.get(i) <= to) {
        at.add(cup.at.get(i));
        mass.add(cup.massG.get(i));
      }
    }
    json(context, Map.of("at", at, "mass_g", mass));
  }

  /** What a test has put there, else as the host makes it of the cup's weights in even air. */
  private void dryDowns(Context context) {
    String name = context.pathParam("cup");
    if (dryDowns.containsKey(name)) {
      context.contentType("application/json").result(dryDowns.get(name));
      return;
    }
    CannedCup cup = cups.get(name);
    double from = epoch(context, "from").orElse(0.0);
    List<Weighing> weighings = new ArrayList<>();
    List<DryDowns.Air> air = new ArrayList<>();
    for (int i = 0; i < cup.at.size(); i++) {
      if (cup.at.get(i) >= from) {
        Instant at = Instant.ofEpochSecond(cup.at.get(i).longValue());
        weighings.add(new Weighing(at, cup.massG.get(i)));
        air.add(new DryDowns.Air(at, 0.9));
      }
    }
    List<Instant> doses = cup.doses.stream().map(Event::at).toList();
    json(context, DryDownAnswer.of(DryDowns.of(weighings, doses, air)));
  }

  private static Optional<Double> epoch(Context context, String name) {
    return Optional.ofNullable(context.queryParam(name))
        .map(word -> Instant.parse(word).toEpochMilli() / 1000.0);
  }

  private void events(Context context) {
    String cup = context.queryParam("cup");
    String kind = context.queryParam("kind");
    double from = epoch(context, "from").orElse(0.0);
    double to = epoch(context, "to").orElse(Double.MAX_VALUE);
    List<Event> all = new ArrayList<>(pastAlerts);
    cups.values().forEach(canned -> all.addAll(canned.doses));
    json(
        context,
        all.stream()
            .filter(event -> cup == null || cup.equals(event.cup()))
            .filter(event -> kind == null || kind.equals(event.kind()))
            .filter(
                event -> event.at().getEpochSecond() >= from && event.at().getEpochSecond() <= to)
            .toList());
  }

  private void setup(Context context) {
    if (!knowsSetup) {
      context.contentType("application/json").result("null");
      return;
    }
    json(context, setup());
  }

  /** As a controller tells it. */
  BenchSetup setup() {
    SortedMap<String, BenchSetup.Cup> named = new TreeMap<>();
    cups.values().forEach(cup -> named.put(cup.name, cup.setup()));
    return new BenchSetup(
        now.minus(CannedCup.SPAN),
        Optional.of(ZoneId.of("Europe/London")),
        new BenchSetup.Watering(new Window.Hours(LocalTime.of(8, 0), LocalTime.of(16, 0)), 30, 720),
        new BenchSetup.Feeding(
            0,
            0.5,
            Map.of(RootStage.TOUGHENED, 0.5, RootStage.CIRCLING, 1.0),
            FeedingRules.USUAL.strength(),
            FeedingRules.USUAL.mostNMgPerL(),
            Optional.of(new FeedingRules.Pause(MonthDay.of(12, 1), MonthDay.of(12, 24))),
            List.of(
                new FeedingRules.PlanStep(LocalDate.parse("2026-11-01"), "leafy"),
                new FeedingRules.PlanStep(LocalDate.parse("2027-04-15"), "bloom"))),
        new BenchSetup.Climate(12, 3, 30, 27, Optional.empty()),
        new TreeMap<>(
            Map.of(
                "tall", new BenchSetup.Vessel(92, 60, 112, 13),
                "short", new BenchSetup.Vessel(80, 55, 78, 9))),
        new TreeMap<>(Map.of("coir-perlite", new BenchSetup.Mix(0.82, 0.1, 0.1))),
        new TreeMap<>(
            Map.of("leafy", new BenchSetup.Feed(20, 10, 20, 1.532, 1_209_600, 5.8, 1.25))),
        0.3,
        new TreeMap<>(
            Map.of(
                "plain", new BenchSetup.Tank(12_000, Optional.empty(), 0),
                "feed", new BenchSetup.Tank(4_000, Optional.of("leafy"), 0.5))),
        named,
        new TreeMap<>(
            Map.of(
                "blackcurrant",
                new BenchSetup.KnownPlant(
                    "blackcurrant",
                    0,
                    List.of(15.0, 21.0),
                    List.of(14.0, 28.0),
                    20,
                    4,
                    true,
                    false))),
        Arrays.stream(LimitCode.values()).map(LimitCode::told).toList(),
        Arrays.stream(AlertCode.values()).map(AlertCode::told).toList(),
        List.of(
            new BenchText.Key("watering.pass", "30 mL"),
            new BenchText.Key("climate.cold", "12 C"),
            new BenchText.Key("mixes.coir-perlite-and-bark.retention.saturated", "0.82"),
            new BenchText.Key("cups.A1.plant", "blackcurrant"),
            new BenchText.Key("cups.A1.struck", "2026-11-14")),
        List.of(),
        runsWithout,
        Optional.of(new BenchSetup.FreeParts(freeScales, freeValves, List.of("p1"))),
        watched ? true : null,
        file);
  }

  /** As a host tells it that knows of a week: 180 mL of plain water a day, and 40 mL of feed. */
  private ArrayNode tanks() {
    ArrayNode all = Json.MAPPER.createArrayNode();
    setup()
        .tanks()
        .forEach(
            (name, tank) -> {
              double leftMl = status().tankMl().get(name);
              double mlPerD = tank.feed().isPresent() ? 40 : 180;
              all.addObject()
                  .put("tank", name)
                  .put("size_ml", tank.sizeMl())
                  .put("feed", tank.feed().orElse(null))
                  .put("strength", tank.strength())
                  .put("left_ml", leftMl)
                  .put("use_ml_per_d", mlPerD)
                  .put("mix_most_ml", tank.feed().isPresent() ? 14 * mlPerD : null)
                  .put("use_over_s", 604_800)
                  .put(
                      "lasts_until", now.plusSeconds((long) (leftMl / mlPerD * 86_400)).toString());
            });
    return all;
  }

  /** As the host sums its doses. */
  private void given(Context context) {
    double from = epoch(context, "from").orElse(0.0);
    double to = epoch(context, "to").orElse(Double.MAX_VALUE);
    ArrayNode sums = Json.MAPPER.createArrayNode();
    cups.forEach(
        (name, cup) -> {
          Map<String, ObjectNode> byWhy = new TreeMap<>();
          for (Event event : cup.doses) {
            double at = event.at().getEpochSecond();
            if (at >= from && at < to) {
              String why = event.data().get("why").asText();
              ObjectNode sum =
                  byWhy.computeIfAbsent(
                      why, each -> sums.addObject().put("cup", name).put("why", each));
              sum.put("passes", sum.path("passes").asInt() + 1);
              for (String part : List.of("plain_ml", "feed_ml")) {
                sum.put(part, sum.path(part).asDouble() + event.data().get(part).asDouble());
              }
            }
          }
        });
    json(context, sums);
  }

  /** Every hour of the span that its cups know: warmer by day, and no light meter. */
  private void climate(Context context) {
    ObjectNode told = Json.MAPPER.createObjectNode();
    for (String curve : List.of("air_c", "root_c", "outdoor_c", "rh_pct", "light_umol_m2_s")) {
      ArrayNode at = told.putObject(curve).putArray("at");
      ArrayNode values = ((ObjectNode) told.get(curve)).putArray("value");
      double from = Math.max(epoch(context, "from").orElse(0.0), 0);
      for (Instant hour = now.minus(CannedCup.SPAN); hour.isBefore(now); ) {
        double swing = Math.sin((hour.getEpochSecond() % 86_400 - 28_800) / 13_751.0);
        if (hour.getEpochSecond() >= from && !curve.startsWith("light")) {
          at.add(hour.getEpochSecond());
          values.add(curve.equals("rh_pct") ? 60 - 10 * swing : 14 + 4 * swing);
        }
        hour = hour.plusSeconds(3600);
      }
    }
    json(context, told);
  }

  private void recipe(Context context) {
    BenchSetup.Feed bag = setup().feeds().get(context.queryParam("feed"));
    double strength = Double.parseDouble(context.queryParam("strength"));
    double feedG =
        bag.labelGPerL() * strength * Double.parseDouble(context.queryParam("volume_ml")) / 1000;
    json(
        context,
        Map.of(
            "feed_g",
            feedG,
            "level_teaspoons",
            feedG / bag.spoonG(),
            "spoons",
            Teaspoons.words(feedG / bag.spoonG()),
            "ec_ms_per_cm",
            0.3 + bag.labelGPerL() * strength * bag.ecMsPerCmPerGPerL(),
            "water_ec_ms_per_cm",
            0.3,
            "n_mg_per_l",
            153.2,
            "p_mg_per_l",
            33.4,
            "k_mg_per_l",
            127.2,
            "concentrate",
            false));
  }

  private void cuttings(Context context) {
    ArrayNode all = Json.MAPPER.createArrayNode();
    setup()
        .cups()
        .forEach(
            (name, cup) -> {
              ObjectNode told = Json.MAPPER.valueToTree(cup);
              all.add(told.put("cup", name).put("since", now.minus(CannedCup.SPAN).toString()));
              told.putNull("gone").putNull("because");
              told.set("foretold", foretold(name));
            });
    retired.forEach(all::add);
    json(context, all);
  }

  /** Of three cups white roots were foretold and seen, of one of them after its band. */
  private ArrayNode foretold(String cup) {
    ArrayNode all = Json.MAPPER.createArrayNode();
    if (List.of("A1", "A2", "A3").contains(cup)) {
      all.addObject()
          .put("roots", "white")
          .put("day", cup.equals("A3") ? "2026-12-20" : "2026-12-08")
          .put("from", "2026-12-01")
          .put("likely", "2026-12-07")
          .put("to", "2026-12-15");
    }
    return all;
  }

  /** A cutting that is no longer on the bench. */
  void retired(String cup, String plant, String because) {
    retired.add(
        Json.MAPPER
            .createObjectNode()
            .put("cup", cup)
            .put("vessel", "short")
            .put("mix", "coir-perlite")
            .put("plant", plant)
            .put("struck", "2026-11-14")
            .put("stage", "struck")
            .put("cutting_g", 11.5)
            .put("since", now.minus(CannedCup.SPAN).toString())
            .put("gone", now.minusSeconds(500_000).toString())
            .put("because", because));
  }

  private void reasons(Context context) {
    CannedCup cup = cups.get(context.pathParam("cup"));
    Instant at = Instant.parse(context.queryParam("at"));
    if (at.isBefore(now.minus(CannedCup.SPAN))) {
      context
          .status(404)
          .contentType("application/json")
          .result("{\"error\":\"Nothing is known of cup A1 at that time.\"}");
      return;
    }
    json(context, cup.reasonsAt(at, now));
  }

  private void acknowledge(Context context) {
    try {
      JsonNode asked = Json.MAPPER.readTree(context.body());
      seen.add(asked.path("code").asText() + "/" + asked.path("cup").asText(""));
      json(context, Map.of("at", now.toString(), "by", "gardener"));
    } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
      context.status(400).contentType("application/json").result("{\"error\":\"not JSON\"}");
    }
  }

  private ArrayNode openAlerts() {
    ArrayNode open = Json.MAPPER.createArrayNode();
    for (AlertNotice alert : alerts) {
      ObjectNode told = Json.MAPPER.valueToTree(alert);
      String cup = Optional.ofNullable(alert.cup()).orElse("");
      if (seen.contains(alert.code() + "/" + cup)) {
        told.putObject("acknowledged").put("at", now.toString()).put("by", "gardener");
      }
      open.add(told);
    }
    return open;
  }

  private void order(Context context) {
    try {
      ObjectNode order = (ObjectNode) Json.MAPPER.readTree(context.body());
      String id = "o-" + (orders.size() + 1);
      ObjectNode kept = Json.MAPPER.createObjectNode();
      kept.setAll(order);
      kept.put("id", id).put("issued", now.toString());
      kept.putArray("receipts");
      orders.add(0, kept);
      json(context, Map.of("id", id));
    } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
      context.status(400).contentType("application/json").result("{\"error\":\"not JSON\"}");
    }
  }

  /** The controller's word on the newest order. */
  void receive(Receipt receipt) {
    ObjectNode kept =
        orders.stream()
            .filter(order -> order.get("id").asText().equals(receipt.id()))
            .findFirst()
            .orElseThrow();
    kept.withArray("receipts").add(Json.MAPPER.<JsonNode>valueToTree(receipt));
    send("event", Map.of("bench", BENCH, "event", event("receipt", null, receipt, now)));
  }

  /** A pass was given just now. */
  void pass(String cup, double ml, String why) {
    now = now.plusSeconds(60);
    Event pass = event("dose", cup, new Dose(cup, ml, 0, 0, why, "given"), now);
    cups.get(cup).doses.add(pass);
    send("event", Map.of("bench", BENCH, "event", pass));
  }

  void raise(AlertNotice notice) {
    if (notice.state().equals("cleared")) {
      alerts.removeIf(alert -> alert.code().equals(notice.code()));
    } else {
      alerts.add(notice);
    }
    send("event", Map.of("bench", BENCH, "event", event("alert", notice.cup(), notice, now)));
  }

  void turn(String cup, CupActivity state) {
    send("cup", Map.of("bench", BENCH, "cup", cups.get(cup).become(state, now)));
  }

  void weigh(String cup, double massG) {
    CannedCup canned = cups.get(cup);
    canned.at.add((double) now.getEpochSecond());
    canned.massG.add(massG);
    send("weight", Map.of("bench", BENCH, "cup", cup, "at", now.getEpochSecond(), "mass_g", massG));
  }

  void send(String kind, Object word) {
    try {
      String data = Json.MAPPER.writeValueAsString(word);
      listeners.forEach(client -> client.sendEvent(kind, data));
    } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    goAway();
  }
}
