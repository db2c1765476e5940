package dev.cupwarden.host;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.TestInstance.Lifecycle;
import org.junit.jupiter.api.io.TempDir;

/** One host, real broker, real SQLite, real HTTP; each test has a bench of its own. */
@TestInstance(Lifecycle.PER_CLASS)
abstract class HostStoriesTest {
  @TempDir static Path data;
  private static HostInTest host;

  @BeforeAll
  void start() throws Exception {
    host = new HostInTest(settings(data));
  }

  /** A host with the broker that is tried. */
  abstract HostSettings settings(Path folder) throws Exception;

  /** Ends what the settings began. */
  void afterwards() throws Exception {}

  @AfterAll
  void stop() throws Exception {
    host.close();
    afterwards();
  }

  @Test
  void whatABenchSaysIsThereToRead() throws Exception {
    Topics topics = new Topics("sill");
    host.bench().publish(topics.presence(), new Presence("online", EIGHT), true);
    host.bench().publish(topics.benchStatus(), Spoken.bench(EIGHT), true);
    host.bench().publish(topics.cup("A1"), Spoken.cup("A1", EIGHT, 301.5), true);
    host.bench().publish(topics.readings(), Spoken.pack("sill", EIGHT, "A1", 301.5), false);
    host.bench()
        .publish(
            topics.readings(), Spoken.pack("sill", EIGHT.plusSeconds(300), "A1", 301.4), false);

    JsonNode weights =
        host.await("api/benches/sill/cups/A1/weights", answer -> answer.path("at").size() == 2);
    assertEquals(EIGHT.getEpochSecond(), weights.get("at").get(0).asLong());
    assertEquals(301.4, weights.get("mass_g").get(1).asDouble());
    JsonNode cups = host.json("api/benches/sill/cups");
    assertEquals(
        Json.MAPPER.valueToTree(Spoken.cup("A1", EIGHT, 301.5)).toString(), cups.get(0).toString());
    JsonNode bench =
        Stream.iterate(0, index -> index + 1)
            .limit(host.json("api/benches").size())
            .map(index -> at("api/benches", index))
            .filter(each -> each.path("bench").asText().equals("sill"))
            .findFirst()
            .orElseThrow();
    assertEquals("online", bench.at("/presence/state").asText());
    assertEquals(9000.0, bench.at("/status/tank_ml/plain").asDouble());
  }

  private static JsonNode at(String path, int index) {
    try {
      return host.json(path).get(index);
    } catch (java.io.IOException | InterruptedException failed) {
      throw new IllegalStateException(failed);
    }
  }

  @Test
  void anEventSentTwiceIsStoredOnceAndTheMarkStopsBeforeAGap() throws Exception {
    Topics topics = new Topics("twice");
    BlockingQueue<WireClient.Heard> marks = host.bench().listen(topics.kept());
    for (long seq : new long[] {1, 2, 2, 1, 4, 5}) {
      host.bench()
          .publish(topics.events(), Spoken.dose("e", seq, "A1", EIGHT.plusSeconds(seq)), false);
    }
    host.await("api/benches/twice/events", answer -> answer.size() == 4);
    awaitMark(marks, new Kept("e", 2));
    host.bench().publish(topics.events(), Spoken.dose("e", 3, "A1", EIGHT.plusSeconds(3)), false);
    awaitMark(marks, new Kept("e", 5));
    JsonNode events = host.json("api/benches/twice/events?cup=A1&kind=dose");
    assertEquals(5, events.size());
    assertEquals(5, events.get(0).get("seq").asLong());
    assertEquals(2, host.json("api/benches/twice/events?limit=2").size());
  }

  /** Each batch tells the mark anew, so it may come several times; it never runs ahead. */
  private static void awaitMark(BlockingQueue<WireClient.Heard> marks, Kept expected)
      throws Exception {
    Kept mark = null;
    while (!expected.equals(mark)) {
      WireClient.Heard heard = WireClient.next(marks);
      assertTrue(heard != null, "the mark " + expected + " was never told; the last: " + mark);
      mark = Json.MAPPER.readValue(heard.payload(), Kept.class);
      assertTrue(mark.seq() <= expected.seq(), mark + " runs ahead of " + expected);
    }
  }

  @Test
  void anAlertIsOpenUntilItIsClearedAndAnOldWordDoesNotRaiseItAgain() throws Exception {
    Topics topics = new Topics("alarmed");
    host.bench().publish(topics.events(), Spoken.alert("e", 1, "cold", "raised", EIGHT), false);
    host.await("api/benches/alarmed/alerts", answer -> answer.size() == 1);
    host.bench()
        .publish(
            topics.events(),
            Spoken.alert("e", 3, "cold", "cleared", EIGHT.plusSeconds(600)),
            false);
    host.await("api/benches/alarmed/alerts", JsonNode::isEmpty);
    host.bench()
        .publish(
            topics.events(), Spoken.alert("e", 2, "cold", "raised", EIGHT.plusSeconds(300)), false);
    host.await("api/benches/alarmed/events", answer -> answer.size() == 3);
    assertTrue(host.json("api/benches/alarmed/alerts").isEmpty());
  }

  /** Each of the two would end what the other raises. */
  @Test
  void noControllerEndsTheAlertThatThereAreTwo() throws Exception {
    Topics topics = new Topics("twins");
    String code = "two-controllers";
    host.bench().publish(topics.events(), Spoken.alert("e", 1, code, "raised", EIGHT), false);
    host.await("api/benches/twins/alerts", answer -> answer.size() == 1);
    host.bench()
        .publish(
            topics.events(), Spoken.alert("e", 2, code, "cleared", EIGHT.plusSeconds(60)), false);
    host.await("api/benches/twins/events", answer -> answer.size() == 2);
    assertEquals(1, host.json("api/benches/twins/alerts").size());
  }

  @Test
  void anOrderReachesTheBenchAndIsFollowedToItsReceipt() throws Exception {
    Topics topics = new Topics("ordered");
    host.bench().publish(topics.presence(), new Presence("online", EIGHT), true);
    host.await("api/benches", answer -> answer.toString().contains("\"ordered\""));
    BlockingQueue<WireClient.Heard> orders = host.bench().listen(topics.orders());

    HttpResponse<String> answer =
        host.post(
            "api/benches/ordered/orders",
            "{\"kind\":\"stage\",\"cup\":\"A1\",\"stage\":\"white\"}");
    assertEquals(200, answer.statusCode(), answer.body());
    String id = Json.MAPPER.readTree(answer.body()).get("id").asText();
    WireClient.Heard heard = WireClient.next(orders);
    JsonNode order = Json.MAPPER.readTree(heard.payload());
    assertFalse(heard.retained());
    assertEquals(id, order.get("id").asText());
    assertEquals("page", order.get("by").asText());
    assertTrue(order.get("expires").asText().compareTo(order.get("issued").asText()) > 0);

    host.bench().publish(topics.receipts(), Receipt.taken(id), false);
    host.bench().publish(topics.receipts(), Receipt.done(id), false);
    host.bench().publish(topics.receipts(), Receipt.done(id), false);
    JsonNode followed =
        host.await("api/benches/ordered/orders", list -> list.at("/0/receipts").size() == 2);
    assertEquals("white", followed.at("/0/stage").asText());
  }

  @Test
  void whatIsNoOrderIsRefusedWithASentence() throws Exception {
    host.bench().publish(new Topics("strict").presence(), new Presence("online", EIGHT), true);
    host.await("api/benches", answer -> answer.toString().contains("\"strict\""));
    for (String body :
        new String[] {
          "",
          "[]",
          "{\"kind\":\"explode\"}",
          "{\"kind\":3}",
          "{\"kind\":\"hold\",\"kind\":\"hold\"}",
          "{\"kind\":\"hold\",\"id\":7}",
          "{\"kind\":\"hold\",\"expires\":\"tomorrow\"}",
          "{\"kind\":\"hold\",\"expires\":\"1999-01-01T00:00:00Z\"}",
          "{\"kind\":\"hold\",\"expires\":\"+999999999-12-31T23:59:59Z\"}",
          "[".repeat(5000)
        }) {
      HttpResponse<String> answer = host.post("api/benches/strict/orders", body);
      assertEquals(400, answer.statusCode(), body);
      assertTrue(Json.MAPPER.readTree(answer.body()).get("error").asText().endsWith("."), body);
    }
    assertEquals(404, host.post("api/benches/nobody/orders", "{\"kind\":\"hold\"}").statusCode());
    assertEquals(413, host.post("api/benches/strict/orders", " ".repeat(1 << 20)).statusCode());
    assertTrue(host.json("api/benches/strict/orders").isEmpty());
  }

  @Test
  void questionsThatCannotBeAnsweredGetASentence() throws Exception {
    host.bench().publish(new Topics("asked").presence(), new Presence("online", EIGHT), true);
    host.await("api/benches", answer -> answer.toString().contains("\"asked\""));
    for (String path :
        new String[] {
          "api/benches/nobody/cups", "api/benches/asked/cups/Z9/weights", "api/nothing"
        }) {
      assertEquals(404, host.get(path).statusCode(), path);
      assertTrue(host.json(path).has("error"), path);
    }
    for (String path :
        new String[] {
          "api/benches/asked/events?from=yesterday",
          "api/benches/asked/events?limit=0",
          "api/benches/asked/events?limit=x",
          "api/benches/asked/events?from=2027-01-02T00:00:00Z&to=2027-01-01T00:00:00Z",
          "api/benches/asked/events?cup=" + "x".repeat(100)
        }) {
      assertEquals(400, host.get(path).statusCode(), path);
      assertTrue(host.json(path).has("error"), path);
    }
  }

  @Test
  void thePageAndItsChartsComeFromThisHostWithStrictHeaders() throws Exception {
    HttpResponse<String> page = host.get("");
    assertEquals(200, page.statusCode());
    assertTrue(page.body().contains("<html"), page.body());
    String policy = page.headers().firstValue("Content-Security-Policy").orElse("");
    assertTrue(policy.contains("default-src 'none'"), policy);
    assertFalse(policy.contains("unsafe"), policy);
    assertEquals(200, host.get("lib/uplot/uPlot.esm.js").statusCode());
    assertEquals(
        policy,
        host.get("lib/uplot/uPlot.min.css")
            .headers()
            .firstValue("Content-Security-Policy")
            .orElse(""));
    assertEquals(404, host.get("lib/uplot/package.json").statusCode());
  }

  @Test
  void anotherSitesPageMayNeitherReadNorAct() throws Exception {
    host.bench().publish(new Topics("guarded").presence(), new Presence("online", EIGHT), true);
    host.await("api/benches", answer -> answer.toString().contains("\"guarded\""));
    String rebound =
        raw("GET /api/benches HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n");
    assertTrue(rebound.startsWith("HTTP/1.1 403"), rebound);
    HttpRequest.Builder order =
        HttpRequest.newBuilder(host.uri("api/benches/guarded/orders"))
            .POST(HttpRequest.BodyPublishers.ofString("{\"kind\":\"hold\"}"));
    assertEquals(
        403,
        host.send(
                order
                    .copy()
                    .header("Content-Type", "application/json")
                    .header("Origin", "http://evil.example")
                    .build())
            .statusCode());
    assertEquals(
        415, host.send(order.copy().header("Content-Type", "text/plain").build()).statusCode());
    assertTrue(host.json("api/benches/guarded/orders").isEmpty());
  }

  private static String raw(String request) throws Exception {
    try (Socket socket = new Socket("127.0.0.1", host.uri("").getPort())) {
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void newsComeLiveToAnOpenPage() throws Exception {
    Topics topics = new Topics("live");
    HttpRequest request =
        HttpRequest.newBuilder(host.uri("api/live")).header("Accept", "text/event-stream").build();
    HttpResponse<java.io.InputStream> stream =
        HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofInputStream());
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(stream.body(), StandardCharsets.UTF_8))) {
      assertTrue(lines.readLine().startsWith(":"), "a comment comes first");
      host.bench().publish(topics.presence(), new Presence("online", EIGHT), true);
      host.bench().publish(topics.cup("A1"), Spoken.cup("A1", EIGHT, 300), true);
      host.bench().publish(topics.readings(), Spoken.pack("live", EIGHT, "A1", 300), false);
      host.bench().publish(topics.benchStatus(), Spoken.bench(EIGHT), true);
      host.bench().publish(topics.events(), Spoken.dose("e", 1, "A1", EIGHT), false);
      assertEquals("online", next(lines, "presence").at("/presence/state").asText());
      assertEquals("A1", next(lines, "cup").at("/cup/cup").asText());
      assertEquals(300.0, next(lines, "weight").get("mass_g").asDouble());
      assertEquals(300, next(lines, "bench").at("/status/tick_s").asInt());
      assertEquals("dose", next(lines, "event").at("/event/kind").asText());
    }
  }

  private static final java.util.Map<String, JsonNode> SEEN = new java.util.HashMap<>();

  /** The next one of that name for the bench {@code live}, in whatever order they come. */
  private static JsonNode next(BufferedReader lines, String name) throws Exception {
    while (!SEEN.containsKey(name)) {
      String line = lines.readLine();
      if (line.startsWith("event:")) {
        JsonNode data = Json.MAPPER.readTree(lines.readLine().substring("data:".length()));
        if (data.path("bench").asText().equals("live")) {
          SEEN.put(line.substring("event:".length()).strip(), data);
        }
      }
    }
    return SEEN.remove(name);
  }

  @Test
  void aTakenPortIsRefusedWithASentenceAndNothingStaysOpen(@TempDir Path other) throws Exception {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      LoopbackPort page = new LoopbackPort(taken.getLocalPort(), "the page", "--port");
      LoopbackPort free = LoopbackPort.anyFree("the broker", "--broker-port");
      HostException refused =
          assertThrows(
              HostException.class, () -> Host.start(HostSettings.local(other, page, free)));
      assertTrue(
          refused.getMessage().contains("--port") && refused.getMessage().contains("is taken"));
      free.requireFree();
    }
  }

  @Test
  void whatWasStoredIsThereAfterARestart(@TempDir Path folder) throws Exception {
    Topics topics = new Topics("sill");
    try (HostInTest first = new HostInTest(settings(folder))) {
      first.bench().publish(topics.events(), Spoken.dose("e", 1, "A1", EIGHT), false);
      first.await("api/benches/sill/events", answer -> answer.size() == 1);
    }
    try (HostInTest again = new HostInTest(settings(folder))) {
      BlockingQueue<WireClient.Heard> marks = again.bench().listen(topics.kept());
      again.bench().publish(topics.events(), Spoken.dose("e", 1, "A1", EIGHT), false);
      again.bench().publish(topics.events(), Spoken.dose("e", 2, "A1", EIGHT), false);
      again.await("api/benches/sill/events", answer -> answer.size() == 2);
      Kept mark = null;
      while (mark == null || mark.seq() < 2) {
        mark = Json.MAPPER.readValue(marks.poll(20, TimeUnit.SECONDS).payload(), Kept.class);
      }
      assertEquals(1, again.host().counts().doubles());
    }
  }
}
