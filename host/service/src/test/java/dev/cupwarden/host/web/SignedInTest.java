package dev.cupwarden.host.web;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.WireClient;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.Users.UserRow;
import dev.cupwarden.host.users.Passwords;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A host open to other machines: everybody signs in, and only some may act. */
class SignedInTest {
  private static final String WORD = "a long enough password";
  private static final String ORDER = "{\"kind\":\"hold\",\"until\":\"2027-02-15T08:00:00Z\"}";
  @TempDir static Path data;
  private static final HttpClient HTTP = HttpClient.newHttpClient();
  private static Host host;
  private static WireClient bench;

  // Once for all, since all come from one address, which the guessing test gets into trouble.
  private static String actor;
  private static String looker;
  private static String leaver;

  private static BlockingQueue<WireClient.Heard> orders;

  @BeforeAll
  static void start() throws Exception {
    HostSettings settings =
        HostSettings.local(
                data,
                LoopbackPort.anyFree("the page", "--port"),
                LoopbackPort.anyFree("the broker", "--broker-port"))
            .exposed(new Exposure("127.0.0.1", Optional.empty()));
    HostException nobody = assertThrows(HostException.class, () -> Host.start(settings));
    assertTrue(nobody.getMessage().contains("user add"), "no user, no default password");
    try (Store store = Store.open(Database.sqlite(data.resolve("host.db")))) {
      String hash = Passwords.hash(WORD.toCharArray());
      store.users().put(new UserRow("looker", "look", hash));
      store.users().put(new UserRow("actor", "act", hash));
    }
    host = Host.start(settings);
    bench = new WireClient(host.brokerUri());
    orders = bench.listen(new Topics("sill").orders());
    bench.publish(new Topics("sill").presence(), new Presence("online", EIGHT), true);
    bench.publish(
        new Topics("sill").events(), Spoken.alert("e", 1, "cold", "raised", EIGHT), false);
    actor = signIn("actor", WORD);
    looker = signIn("looker", WORD);
    leaver = signIn("looker", WORD);
    await("the bench comes through")
        .atMost(Duration.ofSeconds(20))
        .until(() -> get("api/benches/sill/alerts", actor).body().contains("cold"));
  }

  @AfterAll
  static void stop() {
    bench.close();
    host.close();
  }

  private static HttpRequest.Builder to(String path, String session) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(host.address()).resolve("/" + path));
    return session == null ? request : request.header("Cookie", session);
  }

  private static HttpResponse<String> get(String path, String session)
      throws IOException, InterruptedException {
    return HTTP.send(to(path, session).build(), HttpResponse.BodyHandlers.ofString());
  }

  private static HttpResponse<String> post(String path, String session, String body, String origin)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        to(path, session)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(body));
    if (origin != null) {
      request.header("Origin", origin);
    }
    return HTTP.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private static String here() {
    String address = host.address();
    return address.substring(0, address.length() - 1);
  }

  private static HttpResponse<String> tryIn(String name, String password) throws Exception {
    String body =
        Json.MAPPER.createObjectNode().put("name", name).put("password", password).toString();
    return post("api/session", null, body, here());
  }

  private static String signIn(String name, String password) throws Exception {
    HttpResponse<String> answer = tryIn(name, password);
    assertEquals(200, answer.statusCode(), answer.body());
    String cookie = answer.headers().firstValue("Set-Cookie").orElseThrow();
    assertTrue(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"), cookie);
    return cookie.substring(0, cookie.indexOf(';'));
  }

  @Test
  void whoIsNotSignedInSeesNothingButTheWayIn() throws Exception {
    for (String path :
        new String[] {
          "api/benches", "api/live", "metrics", "js/main.js", "api/benches/sill/exports/doses.csv"
        }) {
      assertEquals(401, get(path, null).statusCode(), path);
      assertEquals(401, get(path, "cupwarden-session=made-up").statusCode(), path);
    }
    HttpResponse<String> root = get("", null);
    assertEquals(303, root.statusCode());
    assertEquals(Optional.of("/sign-in/"), root.headers().firstValue("Location"));
    assertTrue(get("sign-in/", null).body().contains("<form"));
    assertEquals(200, get("health/live", null).statusCode());
  }

  @Test
  void whoMayLookSeesEverythingAndChangesNothing() throws Exception {
    assertEquals(200, get("api/benches", looker).statusCode());
    assertEquals(
        "look", Json.MAPPER.readTree(get("api/session", looker).body()).get("role").asText());
    for (String path :
        new String[] {"api/benches/sill/orders", "api/benches/sill/acknowledgements"}) {
      HttpResponse<String> refused = post(path, looker, ORDER, here());
      assertEquals(403, refused.statusCode(), path);
      assertTrue(refused.body().contains("may look"), refused.body());
    }
    nothingWasOrdered(looker);
  }

  private static void nothingWasOrdered(String session) throws Exception {
    JsonNode list = Json.MAPPER.readTree(get("api/benches/sill/orders", session).body());
    list.forEach(order -> assertEquals("actor", order.get("by").asText()));
    assertTrue(
        orders.stream().allMatch(heard -> heard.payload().contains("\"by\":\"actor\"")),
        "the bench heard only the actor");
  }

  @Test
  void aForgedRequestOfAnotherSiteChangesNothing() throws Exception {
    int before =
        Json.MAPPER.readTree(get("api/benches/sill/orders?limit=500", actor).body()).size();
    for (String origin : new String[] {null, "http://evil.example", "null"}) {
      assertEquals(403, post("api/benches/sill/orders", actor, ORDER, origin).statusCode(), origin);
    }
    assertEquals(401, post("api/benches/sill/orders", null, ORDER, here()).statusCode());
    assertEquals(
        before,
        Json.MAPPER.readTree(get("api/benches/sill/orders?limit=500", actor).body()).size());
  }

  @Test
  void anOrderIsSignedByWhoGaveItAndAReplayedOrStaleOneChangesNothing() throws Exception {
    String forged =
        "{\"kind\":\"hold\",\"id\":\"once\",\"by\":\"somebody else\",\"until\":\"2027-02-14T08:00:00Z\"}";
    assertEquals(200, post("api/benches/sill/orders", actor, forged, here()).statusCode());
    JsonNode heard = Json.MAPPER.readTree(orders.poll(20, TimeUnit.SECONDS).payload());
    assertEquals("actor", heard.get("by").asText());
    assertEquals(400, post("api/benches/sill/orders", actor, forged, here()).statusCode());
    String stale =
        "{\"kind\":\"hold\",\"until\":\"2027-02-14T08:00:00Z\",\"expires\":\"2020-01-01T00:00:00Z\"}";
    assertEquals(400, post("api/benches/sill/orders", actor, stale, here()).statusCode());
    assertTrue(orders.isEmpty());
  }

  @Test
  void anAlertIsAcknowledgedByName() throws Exception {
    HttpResponse<String> answer =
        post("api/benches/sill/acknowledgements", actor, "{\"code\":\"cold\"}", here());
    assertEquals(200, answer.statusCode(), answer.body());
    JsonNode alerts = Json.MAPPER.readTree(get("api/benches/sill/alerts", actor).body());
    assertEquals("actor", alerts.at("/0/acknowledged/by").asText());
    assertEquals(
        404,
        post("api/benches/sill/acknowledgements", actor, "{\"code\":\"frost\"}", here())
            .statusCode());
    for (String body : new String[] {"", "[]", "{}", "{\"code\":7}", "{\"code\":\"\"}"}) {
      assertEquals(
          400, post("api/benches/sill/acknowledgements", actor, body, here()).statusCode(), body);
    }
  }

  @Test
  void guessingIsSlowedDownAndTellsNothing() throws Exception {
    String wrong = tryIn("guessed", "not the password").body();
    assertEquals(wrong, tryIn("guessed", "also wrong here").body());
    HttpResponse<String> answer = null;
    for (int attempt = 0; attempt < 5; attempt++) {
      answer = tryIn("guessed", "wrong again and again");
    }
    assertEquals(429, answer.statusCode());
    assertTrue(answer.headers().firstValue("Retry-After").isPresent());
    assertFalse(answer.body().contains("wrong again"));
  }

  @Test
  void whoSignsOutIsOut() throws Exception {
    HttpRequest out = to("api/session", leaver).header("Origin", here()).DELETE().build();
    assertEquals(200, HTTP.send(out, HttpResponse.BodyHandlers.ofString()).statusCode());
    assertEquals(401, get("api/benches", leaver).statusCode());
  }

  @Test
  void anAddressForOthersDemandsEncryptionOrAnOutspokenWish() {
    HostException refused =
        assertThrows(
            HostException.class, () -> Exposure.checked("0.0.0.0", Optional.empty(), false));
    assertTrue(refused.getMessage().contains("--plain-http"), refused.getMessage());
    assertEquals("0.0.0.0", Exposure.checked("0.0.0.0", Optional.empty(), true).address());
  }

  @Test
  void healthAndMetricsAreTold() throws Exception {
    assertTrue(get("health/ready", actor).body().contains("\"ready\""));
    String metrics = get("metrics", actor).body();
    for (String name :
        new String[] {
          "cupwarden_messages_received_messages_total",
          "cupwarden_readings_stored_readings_total",
          "cupwarden_ingest_backlog_messages",
          "jvm_memory_used_bytes"
        }) {
      assertTrue(metrics.contains(name), name + " in " + metrics);
    }
  }
}
