package dev.cupwarden.host.app.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Receipt;
import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.sse.SseClient;
import io.javalin.http.staticfiles.Location;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
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
  Instant now = NOW;
  boolean empty;
  boolean knowsSetup = true;
  private final List<SseClient> listeners = new CopyOnWriteArrayList<>();
  private Javalin server;
  private int port;
  private long seq;

  static StubHost withCups(int count) {
    StubHost host = new StubHost();
    for (int i = 0; i < count; i++) {
      host.put(i, CannedCup.Fate.WELL);
    }
    return host.started();
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
          files.directory = "/dev/cupwarden/host/page";
          files.location = Location.CLASSPATH;
        });
    config.routes.before(context -> context.header("Content-Security-Policy", POLICY));
    config.routes.get("/lib/uplot/{file}", StubHost::chartLibrary);
    config.routes.get("/api/benches", context -> json(context, benches()));
    config.routes.get("/api/benches/{bench}/cups", context -> json(context, statuses()));
    config.routes.get("/api/benches/{bench}/cups/{cup}/weights", this::weights);
    config.routes.get("/api/benches/{bench}/events", this::events);
    config.routes.get("/api/benches/{bench}/alerts", context -> json(context, alerts));
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
    return new BenchStatus(now, 20.6, 48.0, 18.9, tanks, held, 300, "0.1.0");
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
      context.status(404).contentType("application/json").result("{\"error\":\"not known\"}");
      return;
    }
    ObjectNode setup = Json.MAPPER.createObjectNode();
    ObjectNode vessels = setup.putObject("vessels");
    vessels.putObject("tall").put("top_mm", 92).put("base_mm", 60).put("depth_mm", 112);
    vessels.putObject("short").put("top_mm", 80).put("base_mm", 55).put("depth_mm", 78);
    setup.putObject("mixes").putObject("coir-perlite");
    setup
        .putObject("feeds")
        .putObject("leafy")
        .put("label_g_per_l", 1.532)
        .put("spoon_g", 5.8)
        .put("ec_ms_per_cm_per_g_per_l", 1.25);
    ObjectNode tanks = setup.putObject("tanks");
    tanks.putObject("plain").put("size_ml", 12_000).putNull("feed").put("strength", 0);
    tanks.putObject("feed").put("size_ml", 4_000).put("feed", "leafy").put("strength", 0.5);
    ObjectNode feeding = setup.putObject("feeding");
    ArrayNode plan = feeding.putArray("plan");
    plan.addObject().put("from", "2026-11-01").put("feed", "leafy");
    plan.addObject().put("from", "2027-04-15").put("feed", "bloom");
    feeding.putObject("pause").put("from", "--12-01").put("until", "--12-24");
    setup.putObject("watering").put("pass_ml", 30);
    ObjectNode named = setup.putObject("cups");
    for (CannedCup cup : cups.values()) {
      named
          .putObject(cup.name)
          .put("vessel", cup.status.availableMl() > 100 ? "tall" : "short")
          .put("mix", "coir-perlite");
    }
    json(context, setup);
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
