package dev.cupwarden.host.web;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.Error;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.ingest.Counts;
import dev.cupwarden.host.orders.OrderService;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Notes;
import dev.cupwarden.host.store.Orders.ReceiptRow;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.Setups;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.watch.StoreWatch;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The OpenAPI document held against the server that it describes. */
class ApiDocumentTest {
  private static final String ID = "urn:cupwarden:openapi";
  private static final String DOCUMENT = new String(ApiDocument.bytes(), StandardCharsets.UTF_8);
  private static final SchemaRegistry SCHEMAS =
      SchemaRegistry.withDefaultDialect(
          SpecificationVersion.DRAFT_2020_12,
          builder -> builder.schemas(id -> id.equals(ID) ? DOCUMENT : null));

  private final HttpClient http = HttpClient.newHttpClient();
  @TempDir Path folder;
  private Store store;
  private WebServer web;
  private JsonNode document;

  @BeforeEach
  void start() throws Exception {
    document = Json.MAPPER.readTree(DOCUMENT);
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    OrderService orders =
        new OrderService(
            store,
            InstantSource.system(),
            Duration.ofMinutes(10),
            (topic, payload, expiryS) -> CompletableFuture.completedFuture(null));
    web =
        WebServer.of(
                LoopbackPort.anyFree("the page", "--port"),
                Optional.empty(),
                store,
                orders,
                InstantSource.system(),
                new Fine())
            .answer();
    store.write(
        handle -> {
          store.benches().presence(handle, "sill", "online", EIGHT, EIGHT);
          store.benches().touch(handle, "quiet");
          String cup = Json.MAPPER.valueToTree(Spoken.cup("A1", EIGHT, 300)).toString();
          store.benches().cup(handle, "sill", "A1", EIGHT, cup);
          store.readings().insert(handle, weights());
          var notice = Spoken.alert("e", 2, "cold", "raised", EIGHT).data();
          store
              .alerts()
              .put(
                  handle,
                  new Alerts.Key("sill", "cold", Optional.empty()),
                  "raised",
                  EIGHT,
                  notice.toString());
          String setup = Json.MAPPER.valueToTree(Spoken.setup(EIGHT, "A1:vine")).toString();
          store.setups().put(handle, "sill", EIGHT, setup, Map.of("A1", cutting(setup)));
          String decision =
              "{\"state\":\"steady\",\"depletion\":0.3,\"rate_g_h\":1.2,\"vpd_kpa\":0.9,\"fed\":0.1,"
                  + "\"salt_ms_per_cm\":0.8,\"reasons\":[]}";
          store
              .events()
              .insert(handle, new EventRow("sill", "e", 3, EIGHT, "decision", "A1", decision));
          var dose = Spoken.dose("e", 1, "A1", EIGHT).data();
          store
              .events()
              .insert(handle, new EventRow("sill", "e", 1, EIGHT, "dose", "A1", dose.toString()));
        });
    store
        .notes()
        .add(
            new Notes.NoteRow("sill", "A1", "n-1", EIGHT, "2027-02-14", "white", "page", "", true),
            Optional.of("/9j/"));
    String id =
        Json.MAPPER
            .readTree(ask("POST", "/api/benches/sill/orders", "{\"kind\":\"clear\"}").body())
            .get("id")
            .asText();
    String receipt = Json.MAPPER.valueToTree(Receipt.done(id)).toString();
    store.write(
        handle ->
            store.orders().insert(handle, new ReceiptRow("sill", id, "done", EIGHT, receipt)));
  }

  private static Setups.CupRow cutting(String setup) {
    try {
      return new Setups.CupRow(
          "vine", "2026-11-20", Json.MAPPER.readTree(setup).at("/cups/A1").toString());
    } catch (JsonProcessingException broken) {
      throw new IllegalStateException(broken);
    }
  }

  private static List<Reading> weights() {
    List<Reading> readings = new ArrayList<>();
    for (int hour = 0; hour < 24; hour++) {
      readings.add(
          new Reading("sill", "A1/mass", "g", EIGHT.plus(Duration.ofHours(hour)), 300.0 - hour));
    }
    return readings;
  }

  @AfterEach
  void stop() {
    web.close();
    store.close();
  }

  private record Fine() implements HealthRoutes.HostCondition {
    @Override
    public boolean isConnected() {
      return true;
    }

    @Override
    public boolean storeTakes() {
      return true;
    }

    @Override
    public StoreWatch.State store() {
      return new StoreWatch.State(true, Optional.of(EIGHT), OptionalDouble.of(12_000), false);
    }

    @Override
    public int backlog() {
      return 0;
    }

    @Override
    public Counts counts() {
      return Counts.NONE;
    }
  }

  private HttpResponse<String> ask(String method, String path, String body) throws Exception {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(web.address()).resolve(path))
            .header("Content-Type", "application/json")
            .method(
                method,
                body == null
                    ? HttpRequest.BodyPublishers.noBody()
                    : HttpRequest.BodyPublishers.ofString(body));
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void everyRouteOfTheApiIsInTheDocumentAndTheOtherWayRound() {
    Set<String> told = new TreeSet<>();
    document
        .get("paths")
        .fields()
        .forEachRemaining(
            path ->
                path.getValue()
                    .fieldNames()
                    .forEachRemaining(
                        method ->
                            told.add(
                                method.toUpperCase(java.util.Locale.ROOT) + " " + path.getKey())));
    Set<String> served = new TreeSet<>(web.routes());
    served.removeIf(route -> route.contains(" /lib/"));
    assertEquals(told, served);
  }

  @Test
  void everyAnswerIsAsTheDocumentSays() throws Exception {
    Map<String, String> bodies =
        Map.of(
            "POST /api/benches/{bench}/acknowledgements", "{\"code\":\"cold\"}",
            "POST /api/benches/{bench}/file",
                Json.MAPPER
                    .createObjectNode()
                    .put("text", Spoken.FILE.replace("30 mL", "25 mL").replace("sill", "attic"))
                    .toString(),
            "POST /api/benches/{bench}/cups/{cup}/notes",
                "{\"day\":\"2027-02-14\",\"stage\":\"white\",\"words\":\"Two white tips.\"}",
            "POST /api/benches/{bench}/orders", "{\"kind\":\"release\"}");
    int checked = 0;
    for (var paths = document.get("paths").fields(); paths.hasNext(); ) {
      var path = paths.next();
      for (var methods = path.getValue().fieldNames(); methods.hasNext(); ) {
        String method = methods.next();
        String route = method.toUpperCase(java.util.Locale.ROOT) + " " + path.getKey();
        if (!route.equals("GET /api/live") && !route.equals("POST /api/session")) {
          check(method, path.getKey(), bodies.get(route));
          checked++;
        }
      }
    }
    assertTrue(checked > 12, "checked: " + checked);
  }

  private void check(String method, String template, String body) throws Exception {
    String path =
        template
            .replace("{bench}", "sill")
            .replace("{cup}", "A1")
            .replace("{note}", "n-1")
            .replace("{file}", "doses.csv");
    if (template.endsWith("/recipe")) {
      path += "?feed=leafy&volume_ml=4000&strength=0.5";
    }
    HttpResponse<String> answer = ask(method.toUpperCase(java.util.Locale.ROOT), path, body);
    assertEquals(200, answer.statusCode(), path + " " + answer.body());
    String type = answer.headers().firstValue("Content-Type").orElse("").replaceAll(";.*", "");
    JsonNode content =
        document.at(
            "/paths/" + template.replace("/", "~1") + "/" + method + "/responses/200/content");
    assertTrue(content.has(type), path + " answers " + type);
    if (type.equals("application/json")) {
      assertFits(content.get(type).get("schema"), answer.body(), path);
    }
    HttpResponse<String> wrong =
        ask(method.toUpperCase(java.util.Locale.ROOT), path.replace("sill", "nobody"), body);
    if (template.contains("{bench}")) {
      assertEquals(404, wrong.statusCode(), path);
      assertFits(
          Json.MAPPER.readTree("{\"$ref\":\"#/components/schemas/Error\"}"), wrong.body(), path);
    }
  }

  private static void assertFits(JsonNode schema, String body, String what) throws Exception {
    JsonNode absolute =
        Json.MAPPER.readTree(
            schema.toString().replace("\"#/components", "\"" + ID + "#/components"));
    List<Error> errors =
        SCHEMAS
            .getSchema(SchemaLocation.of("urn:asked"), absolute)
            .validate(
                Json.MAPPER.readTree(body),
                context -> context.executionConfig(config -> config.formatAssertionsEnabled(true)));
    assertEquals(List.of(), errors, what + ": " + body);
  }
}
