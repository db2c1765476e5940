package dev.cupwarden.host;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.HostSettings.Keeping;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.notify.NoticeSettings;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import dev.cupwarden.host.users.BenchKeys;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;

/** Nonsense at every door of a running host, on both databases: refused with a reason, no more. */
class NonsenseTest {
  private static final Duration LIMIT = Duration.ofSeconds(30);
  private static final int LARGE_BYTES = 10_000;
  private static final HttpClient HTTP = HttpClient.newHttpClient();
  private static final List<HostInTest> HOSTS = new ArrayList<>();
  private static final List<Operation> OPERATIONS = new ArrayList<>();
  private static Path folder;
  private static PostgresqlServer server;

  /** What the OpenAPI document offers. */
  private record Operation(String method, String path, List<String> parameters) {}

  /** One request, as different as can be from what is expected. */
  private record Asked(Operation operation, String inPath, List<String> values, byte[] body) {
    @Override
    public String toString() {
      return operation.method()
          + " "
          + operation.path()
          + " "
          + inPath
          + " "
          + values
          + " "
          + body.length
          + " bytes";
    }
  }

  @BeforeContainer
  static void start() throws Exception {
    folder = Files.createTempDirectory("cupwarden-nonsense");
    server = PostgresqlServer.start();
    HOSTS.add(new HostInTest(settings(Database.sqlite(folder.resolve("host.db")))));
    HOSTS.add(new HostInTest(settings(server.database())));
    JsonNode paths = HOSTS.get(0).json("api/openapi.json").get("paths");
    paths
        .fields()
        .forEachRemaining(
            path ->
                path.getValue()
                    .fields()
                    .forEachRemaining(
                        method -> {
                          List<String> parameters =
                              new ArrayList<>(List.of("cup", "kind", "from", "to", "limit"));
                          method
                              .getValue()
                              .path("parameters")
                              .forEach(each -> parameters.add(each.path("name").asText("limit")));
                          // What goes on for ever by design is no question with an answer.
                          if (!path.getKey().endsWith("/live")
                              && !method.getKey().equals("parameters")) {
                            OPERATIONS.add(
                                new Operation(
                                    method.getKey().toUpperCase(java.util.Locale.ROOT),
                                    path.getKey(),
                                    parameters));
                          }
                        }));
    for (HostInTest host : HOSTS) {
      host.bench().publish(new Topics("sill").cup("A1"), Spoken.cup("A1", EIGHT, 301), true);
      host.await("api/benches/sill/cups", cups -> cups.size() == 1);
    }
  }

  private static HostSettings settings(Database database) {
    return HostSettings.local(
            folder.resolve("data" + HOSTS.size()),
            LoopbackPort.anyFree("the page", "--port"),
            LoopbackPort.anyFree("the broker", "--broker-port"))
        .keeping(new Keeping(database, Retention.USUAL));
  }

  @AfterContainer
  static void stop() throws Exception {
    HOSTS.forEach(HostInTest::close);
    server.close();
  }

  @Property(tries = 300, shrinking = ShrinkingMode.OFF)
  void everyEndpointAnswersNonsenseWithAReason(@ForAll("asked") Asked asked) throws Exception {
    for (HostInTest host : HOSTS) {
      HttpResponse<String> answer = answer(host, asked);
      assertTrue(answer.statusCode() < 500, asked + ": " + answer.statusCode());
      if (answer.statusCode() >= 400 && !asked.operation().method().equals("HEAD")) {
        assertFalse(answer.body().isBlank(), asked + ": refused without a reason");
      }
    }
  }

  @Example
  void aTimeThatNoClockShowsIsRefusedWithWhatWasExpected() throws Exception {
    for (String question :
        List.of(
            "cups/A1/weights?from=",
            "cups/A1/weights?to=",
            "cups/A1/course?to=",
            "cups/A1/reasons?at=",
            "events?from=",
            "exports/readings.csv?to=")) {
      for (String time : List.of("+999999999-12-31T23:59:59Z", "-0044-03-15T12:00:00Z")) {
        for (HostInTest host : HOSTS) {
          HttpResponse<String> answer =
              HTTP.send(
                  HttpRequest.newBuilder(host.uri("/api/benches/sill/" + question + encoded(time)))
                      .timeout(LIMIT)
                      .build(),
                  HttpResponse.BodyHandlers.ofString());
          assertEquals(400, answer.statusCode(), question);
          assertTrue(answer.body().contains("expected a time from 1970"), answer.body());
        }
      }
    }
  }

  private static HttpResponse<String> answer(HostInTest host, Asked asked) throws Exception {
    StringBuilder target = new StringBuilder(asked.operation().path().substring(1));
    int open = target.indexOf("{");
    boolean known = asked.inPath().isEmpty();
    while (open >= 0) {
      String name = target.substring(open + 1, target.indexOf("}"));
      String value = known ? (name.equals("cup") ? "A1" : "sill") : asked.inPath();
      target.replace(open, target.indexOf("}") + 1, encoded(value));
      open = target.indexOf("{");
    }
    char joint = '?';
    List<String> parameters = asked.operation().parameters();
    for (int index = 0; index < asked.values().size(); index++) {
      target
          .append(joint)
          .append(encoded(parameters.get(index % parameters.size())))
          .append('=')
          .append(encoded(asked.values().get(index)));
      joint = '&';
    }
    boolean bare = asked.operation().method().equals("GET");
    HttpRequest request =
        HttpRequest.newBuilder(host.uri("/" + target))
            .timeout(LIMIT)
            .header("Content-Type", "application/json")
            .method(
                asked.operation().method(),
                bare
                    ? HttpRequest.BodyPublishers.noBody()
                    : HttpRequest.BodyPublishers.ofByteArray(asked.body()))
            .build();
    return sent(request, asked.body().length > LARGE_BYTES ? 20 : 1);
  }

  /**
   * A server may refuse a large body and hang up before it has read it (RFC 9112, section 9.6); a
   * client that is still sending then may lose the answer, and asks again.
   */
  private static HttpResponse<String> sent(HttpRequest request, int times) throws Exception {
    try {
      return HTTP.send(request, HttpResponse.BodyHandlers.ofString());
    } catch (IOException hungUp) {
      if (times == 1) {
        throw hungUp;
      }
      return sent(request, times - 1);
    }
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }

  @Provide
  Arbitrary<Asked> asked() {
    Arbitrary<String> inPath = Arbitraries.oneOf(Arbitraries.just(""), odd());
    return Combinators.combine(
            Arbitraries.of(OPERATIONS), inPath, odd().list().ofMaxSize(6), bodies())
        .as(Asked::new);
  }

  /** Values that trip up what reads names, numbers and times. */
  private static Arbitrary<String> odd() {
    return Arbitraries.oneOf(
        Arbitraries.of(
            "A1",
            "\u0000",
            "a\u0000b",
            "%",
            "..",
            "../..",
            "+",
            "#",
            "$share/x/#",
            "' OR 1=1 --",
            "-1",
            "0",
            "1e999",
            "NaN",
            "9999999999999999999",
            "2147483647",
            "true",
            "null",
            "[]",
            "+999999999-12-31T23:59:59Z",
            "-999999999-01-01T00:00:00Z",
            "2027-02-30T00:00:00Z",
            "2027-02-14T08:00:00Z",
            "\ud800",
            "\uffff",
            "x".repeat(2_000),
            "\n",
            " ",
            "é"),
        Arbitraries.strings().ofMinLength(1).ofMaxLength(40));
  }

  @Provide
  Arbitrary<byte[]> bodies() {
    return Arbitraries.oneOf(
        Arbitraries.of(
                "",
                "null",
                "1",
                "\"x\"",
                "[]",
                "{}",
                "{\"kind\":1}",
                "{\"kind\":\"dose\"}",
                "{\"kind\":\"stage\",\"cup\":\"A1\",\"stage\":7}",
                "{\"a\":1,\"a\":2}",
                "{\"kind\":\"hold\",\"hours\":1e999}",
                "{\"kind\":\"hold\",\"hours\":\"\\u0000\"}",
                "{\"kind\":\"clear\",\"by\":\"\\u0000\",\"cup\":\"\\u0000\"}",
                "{\"kind\":",
                "[".repeat(50_000),
                "{\"a\":".repeat(20_000),
                "1".repeat(100_000),
                "{\"kind\":\"" + "x".repeat(1_048_576) + "\"}")
            .map(text -> text.getBytes(StandardCharsets.UTF_8)),
        Arbitraries.bytes().array(byte[].class).ofMaxSize(300));
  }

  @Property(tries = 60, shrinking = ShrinkingMode.OFF)
  void everyTopicSetsNonsenseAsideAndGoesOn(
      @ForAll("topics") String topic, @ForAll("bodies") byte[] payload) throws Exception {
    for (HostInTest host : HOSTS) {
      long before = host.host().counts().messages();
      if (payload.length > 1_000_000) {
        continue; // The broker itself refuses what is larger than its packets; see below.
      }
      host.bench().publish(topic, payload, false);
      await(topic + " is counted")
          .pollInterval(Duration.ofMillis(2))
          .atMost(LIMIT)
          .until(() -> host.host().counts().messages() > before);
    }
  }

  @Provide
  Arbitrary<String> topics() {
    return Arbitraries.of(
            "presence",
            "readings",
            "bench",
            "setup",
            "events",
            "receipts",
            "cups/A1",
            "cups/\u00e9",
            "nothing",
            "a/b/c")
        .map(kind -> "cupwarden/v1/fuzz/" + kind);
  }

  @Property(tries = 1)
  void afterAMegabyteWhatIsMeantIsStillStored() throws Exception {
    for (HostInTest host : HOSTS) {
      Topics topics = new Topics("after");
      host.bench().publish(topics.events(), new byte[1_000_000], false);
      host.bench().publish(topics.events(), Spoken.dose("e", 1, "A1", EIGHT), false);
      host.await("api/benches/after/events", events -> events.size() == 1);
      await("the megabyte is set aside")
          .atMost(LIMIT)
          .until(() -> host.host().counts().malformed() > 0);
    }
  }

  @Property(tries = 300)
  void aNoticesFileIsReadOrRefusedInASentence(@ForAll("yaml") String text) throws Exception {
    Path file = Files.write(folder.resolve("notices.yaml"), text.getBytes(StandardCharsets.UTF_8));
    HostException refused = assertThrows(HostException.class, () -> NoticeSettings.read(file));
    assertFalse(refused.getMessage().isBlank());
    assertEquals(1, refused.getMessage().lines().count(), refused.getMessage());
  }

  @Provide
  Arbitrary<String> yaml() {
    return Arbitraries.oneOf(
        Arbitraries.of(
            "",
            "mail:",
            "mail: 1",
            "mail: [",
            "a: &a [*a]",
            "&a {b: *a}",
            "{mail: {to: &x [*x]}}",
            "? [a]\n: b",
            "mail: {host: h, port: many}",
            "webhook: {url: ':'}",
            "group_s: 1e999",
            "mail: {host: h, host: i}",
            "\u0007",
            "--- a\n--- b",
            "!!java.net.URL [x]",
            "quiet: {from: 25}",
            "[".repeat(5_000),
            "x: " + "y".repeat(1_048_576),
            "\ud800"),
        Arbitraries.strings().ofMaxLength(60).map(text -> text.replace("\ud800", "")));
  }

  @Property(tries = 200)
  void aBenchsNameIsPlainOrHasNoKey(@ForAll("names") String name) {
    try (Store store = Store.open(Database.sqlite(folder.resolve("keys.db")))) {
      BenchKeys keys = new BenchKeys(store);
      assertThrows(HostException.class, () -> keys.make(name));
      assertFalse(keys.matches(name, "x".repeat(100).toCharArray()));
      assertFalse(keys.any());
    }
  }

  @Provide
  Arbitrary<String> names() {
    Arbitrary<String> wild = Arbitraries.of("+", "#", "/", "a/b", "", "\u0000", "x".repeat(65));
    return Arbitraries.oneOf(
        wild, Combinators.combine(odd(), Arbitraries.of("+", "#", "/")).as((a, b) -> a + b));
  }

  /** Where the host's own address would be asked with no sense at all. */
  @Property(tries = 1)
  void anAddressThatIsNoneIsRefused() throws Exception {
    for (HostInTest host : HOSTS) {
      URI address = host.uri("/");
      try (var socket = new java.net.Socket(address.getHost(), address.getPort())) {
        socket.setSoTimeout((int) LIMIT.toMillis());
        socket
            .getOutputStream()
            .write("GET /%zz\u0000 HTP/9\r\n\r\n".getBytes(StandardCharsets.UTF_8));
        String first = new String(socket.getInputStream().readNBytes(12), StandardCharsets.UTF_8);
        assertTrue(first.startsWith("HTTP/1.1 4") || first.contains(" 505"), first);
      }
    }
  }
}
