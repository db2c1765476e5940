package dev.cupwarden.host.app.attack;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Beat.Doing;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.Users.UserRow;
import dev.cupwarden.host.users.BenchKeys;
import dev.cupwarden.host.users.Passwords;
import dev.cupwarden.host.web.Exposure;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * One host and two benches: one lives as it should, in the name of the other everything is tried;
 * passwords and keys are guessed, orders are nonsense, and the store is held by another program. A
 * build does so for some seconds; {@code -Dattack.minutes=30} for longer. What each attack was told
 * stands in {@code target/attacks.md}.
 */
@Tag("long")
class AllAttacksTest {
  private static final Topics SILL = new Topics("sill");
  private static final Topics ATTIC = new Topics("attic");
  private static final String PASSWORD = "a long enough password";
  private static final Duration SHORT = Duration.ofSeconds(30);

  /** From then on a store that is held must have been told. */
  private static final Duration LONG = Duration.ofMinutes(6);

  private static final Duration HELD = Duration.ofMinutes(2);
  @TempDir Path folder;
  private final AtomicLong told = new AtomicLong();
  private final AtomicLong kept = new AtomicLong();
  private final AtomicInteger ordersHeard = new AtomicInteger();
  private final Set<String> signedIn = new ConcurrentSkipListSet<>();
  private final HttpClient http = HttpClient.newHttpClient();
  private GreenMail mail;
  private Host host;
  private String sillKey;
  private String atticKey;

  @BeforeEach
  void start() throws Exception {
    mail = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    mail.start();
    Path notices = folder.resolve("notices.yaml");
    Files.writeString(
        notices,
        "group_s: 5\nmail: {host: 127.0.0.1, port: %d, security: NONE, from: a@example.org, to: [b@example.org]}%n"
            .formatted(mail.getSmtp().getPort()));
    Path data = folder.resolve("data");
    try (Store store = Store.open(Database.sqlite(data.resolve("host.db")))) {
      store.users().put(new UserRow("owner", "act", Passwords.hash(PASSWORD.toCharArray())));
      sillKey = new BenchKeys(store).make("sill");
      atticKey = new BenchKeys(store).make("attic");
    }
    host =
        Host.start(
            HostSettings.local(
                    data,
                    LoopbackPort.anyFree("the page", "--port"),
                    LoopbackPort.anyFree("the broker", "--broker-port"))
                .noticesBy(notices)
                .exposed(new Exposure("127.0.0.1", Optional.empty())));
  }

  @AfterEach
  void stop() {
    host.close();
    mail.stop();
  }

  private static Duration asked() {
    int minutes = Integer.getInteger("attack.minutes", 0);
    return minutes > 0 ? Duration.ofMinutes(minutes) : SHORT;
  }

  private String here() {
    return host.address().substring(0, host.address().length() - 1);
  }

  private HttpResponse<String> send(String method, String path, String session, String body)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(host.address()).resolve(path))
            .header("Content-Type", "application/json")
            .header("Origin", here())
            .timeout(Duration.ofSeconds(60))
            .method(
                method,
                body == null
                    ? HttpRequest.BodyPublishers.noBody()
                    : HttpRequest.BodyPublishers.ofString(body));
    if (session != null) {
      request.header("Cookie", session);
    }
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private static String credentials(String name, String password) {
    return Json.MAPPER.createObjectNode().put("name", name).put("password", password).toString();
  }

  private String signIn() throws IOException, InterruptedException {
    HttpResponse<String> answer =
        send("POST", "/api/session", null, credentials("owner", PASSWORD));
    answer
        .headers()
        .firstValue("Set-Cookie")
        .ifPresent(cookie -> signedIn.add(cookie.substring(0, cookie.indexOf(';'))));
    return answer.statusCode() + " " + (answer.statusCode() == 200 ? "in" : answer.body());
  }

  /** From another address of loopback, as another machine would. */
  private String guessFrom(String address, String body) throws IOException {
    URI uri = URI.create(host.address());
    try (Socket socket = new Socket()) {
      socket.setSoTimeout(60_000);
      socket.bind(new InetSocketAddress(InetAddress.getByName(address), 0));
      socket.connect(new InetSocketAddress(InetAddress.getByName("127.0.0.1"), uri.getPort()));
      byte[] content = body.getBytes(StandardCharsets.UTF_8);
      String head =
          "POST /api/session HTTP/1.1\r\nHost: "
              + uri.getAuthority()
              + "\r\nOrigin: "
              + here()
              + "\r\nContent-Type: application/json\r\nConnection: close\r\nContent-Length: "
              + content.length
              + "\r\n\r\n";
      socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
      socket.getOutputStream().write(content);
      String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return answer.lines().findFirst().orElse("nothing");
    }
  }

  private void attackSignIn(Attacks attacks) {
    attacks.go(
        "guesses from ten addresses",
        40,
        Duration.ofMillis(50),
        number ->
            guessFrom("127.0.0." + (10 + number % 10), credentials("owner", "guess no " + number)));
    attacks.go(
        "guesses of names",
        5,
        Duration.ofMillis(100),
        number -> guessFrom("127.0.1.1", credentials("name" + number, "guess no " + number)));
    attacks.go("keys of the well bench", 5, Duration.ofMillis(100), this::guessKey);
  }

  private String guessKey(int number) {
    String key = number % 2 == 0 ? "wrong" : "A".repeat(31) + number % 10;
    try (KeyedClient client = new KeyedClient(host.brokerUri(), "sill", key)) {
      client.say(SILL.events(), "in");
      return "let in";
    } catch (MqttException refused) {
      return "refused: " + refused.getReasonCode();
    }
  }

  private void attackOrders(Attacks attacks) {
    List<String> orders =
        List.of(
            "{\"kind\":\"hold\",\"cup\":\"A1\\n\"}",
            "{\"kind\":\"hold\",\"id\":\"" + "o".repeat(65) + "\"}",
            "{\"kind\":\"hold\",\"because\":\"" + "x".repeat(60_000) + "\"}",
            "{\"kind\":\"hold\",\"because\":\"" + "x".repeat(5_000) + "\"}",
            "{\"kind\":\"hold\",\"expires\":\"2199-01-01T00:00:00Z\"}",
            "{\"kind\":\"hold\",\"cups\":[\"A1\",\"=1+1\"]}",
            "[",
            "x".repeat(1_000_000));
    attacks.go(
        "orders that are none",
        4,
        Duration.ofMillis(50),
        number -> {
          String session = signedIn.isEmpty() ? null : signedIn.iterator().next();
          String order = orders.get(number % orders.size());
          HttpResponse<String> answer = send("POST", "/api/benches/attic/orders", session, order);
          return answer.statusCode() + " " + answer.body();
        });
  }

  private void attackEvents(Attacks attacks, KeyedClient attic) {
    List<byte[]> payloads = new ArrayList<>();
    ObjectNode receipt = Json.MAPPER.valueToTree(Spoken.dose("e", 1, "A1", Spoken.EIGHT));
    receipt
        .put("kind", "receipt")
        .putObject("data")
        .put("id", "o".repeat(65))
        .put("outcome", "done");
    payloads.add(receipt.toString().getBytes(StandardCharsets.UTF_8));
    ObjectNode name = Json.MAPPER.valueToTree(Spoken.dose("e", 2, "A1", Spoken.EIGHT));
    payloads.add(name.put("cup", "A1\n").toString().getBytes(StandardCharsets.UTF_8));
    payloads.add(new byte[100_000]);
    payloads.add("{\"epoch\":".getBytes(StandardCharsets.UTF_8));
    payloads.add(new byte[] {(byte) 0xc3, 0x28});
    attacks.go(
        "events that cannot be read",
        1,
        Duration.ofMillis(20),
        number -> {
          attic.say(ATTIC.events(), payloads.get(number % payloads.size()));
          return "taken by the broker";
        });
    attacks.go(
        "two controllers, both started in vain",
        1,
        Duration.ofMillis(500),
        number -> {
          attic.say(
              ATTIC.beat(),
              new Beat(
                  Instant.now(), "twin-" + number % 2, 0, Doing.STARTING, number / 2.0, 60, 3));
          attic.say(ATTIC.presence(), new Presence("online", Instant.now()));
          return "taken by the broker";
        });
  }

  /** The bench that lives as it should. */
  private void live(Attacks attacks, KeyedClient sill) throws MqttException {
    sill.hear(SILL.kept(), (topic, payload) -> kept.accumulateAndGet(seqOf(payload), Math::max));
    attacks.go(
        "the well bench",
        1,
        Duration.ofMillis(200),
        number -> {
          Instant now = Instant.now();
          sill.say(SILL.beat(), new Beat(now, "well", number + 1, Doing.WAITING, 0.1, 60, 0));
          sill.say(SILL.benchStatus(), Spoken.bench(now));
          sill.say(SILL.readings(), Spoken.pack("sill", now, "A1", 300));
          sill.say(SILL.events(), Spoken.dose("w", number + 1, "A1", now));
          told.set(number + 1);
          return "told";
        });
    attacks.go("the owner", 1, Duration.ofSeconds(5), number -> signIn());
  }

  private static long seqOf(byte[] payload) {
    try {
      return Json.MAPPER.readValue(payload, Kept.class).seq();
    } catch (IOException broken) {
      throw new IllegalStateException(broken);
    }
  }

  /** The attacks go on meanwhile. */
  private static void goOnFor(Duration time) {
    await("attacks").pollDelay(time).atMost(time.plusMinutes(1)).until(() -> true);
  }

  /** Another program writes into the store's file and does not end: nothing else can. */
  private void holdTheStore(Duration time, Attacks attacks) throws Exception {
    Path file = folder.resolve("data/host.db");
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file);
        var statement = other.createStatement()) {
      statement.execute("PRAGMA busy_timeout = 60000");
      statement.execute("BEGIN IMMEDIATE");
      goOnFor(time);
      HttpResponse<String> ready = send("GET", "/health/ready", signedIn.iterator().next(), null);
      attacks.note("the store, held for " + time.toSeconds() + " s", "ready: " + ready.body());
      statement.execute("COMMIT");
    }
  }

  @Test
  void theWellBenchGoesOnTheOwnerComesInAndPeopleAreTold() throws Exception {
    Duration time = asked();
    boolean isLong = time.compareTo(LONG) >= 0;
    assertEquals("200 in", signIn(), "the owner's own place is known from here on");
    try (Attacks attacks = new Attacks();
        KeyedClient sill = new KeyedClient(host.brokerUri(), "sill", sillKey);
        KeyedClient attic = new KeyedClient(host.brokerUri(), "attic", atticKey)) {
      attic.hear(ATTIC.orders(), (topic, payload) -> ordersHeard.incrementAndGet());
      live(attacks, sill);
      attackSignIn(attacks);
      attackOrders(attacks);
      attackEvents(attacks, attic);
      Duration half = time.dividedBy(2);
      goOnFor(half);
      holdTheStore(isLong ? HELD : Duration.ofSeconds(5), attacks);
      goOnFor(half);
      check(attacks, isLong);
    }
  }

  private void check(Attacks attacks, boolean isLong) throws Exception {
    String session = signedIn.iterator().next();
    long until = told.get();
    await("the well bench is kept to " + until)
        .atMost(Duration.ofSeconds(90))
        .until(() -> kept.get() >= until);
    await("what is wrong at the other is told")
        .atMost(Duration.ofSeconds(60))
        .until(
            () ->
                codes("attic", session)
                    .containsAll(Set.of("two-controllers", "controller-silent")));
    assertEquals(Set.of(), codes("sill", session));
    Set<String> mails = new TreeSet<>();
    for (var each : mail.getReceivedMessages()) {
      mails.add(each.getSubject());
    }
    mails.forEach(subject -> attacks.note("people, by mail", subject));
    write(attacks);
    assertEquals(List.of(), attacks.failures());
    assertEquals(0, ordersHeard.get(), "no order that is none was sent");
    assertEquals(0, attacks.count("keys of the well bench", "let in"));
    assertTrue(attacks.count("the owner", "200 in") > 0, attacks.lines()::toString);
    assertEquals(0, attacks.count("the owner", "429"), "the owner is never told to wait");
    assertEquals(0, attacks.count("guesses from ten addresses", " 200 "));
    if (isLong) {
      assertTrue(mails.stream().anyMatch(each -> each.startsWith("Host: host store full")));
    }
  }

  private Set<String> codes(String bench, String session) throws Exception {
    HttpResponse<String> answer = send("GET", "/api/benches/" + bench + "/alerts", session, null);
    Set<String> codes = new TreeSet<>();
    for (JsonNode each : Json.MAPPER.readTree(answer.body())) {
      codes.add(each.path("code").asText());
    }
    return codes;
  }

  private static void write(Attacks attacks) throws IOException {
    List<String> lines = new ArrayList<>(List.of("| who | was told | times |", "|---|---|---|"));
    lines.addAll(attacks.lines());
    Path file = Path.of("target/attacks.md");
    Files.createDirectories(file.toAbsolutePath().getParent());
    Files.write(file, lines);
    System.out.println(String.join("\n", lines));
  }
}
