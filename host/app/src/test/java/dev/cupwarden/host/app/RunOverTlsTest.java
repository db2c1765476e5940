package dev.cupwarden.host.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.app.wire.HostProcess;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

/** A host as a household would open it: page by HTTPS, broker by TLS, both with who comes known. */
class RunOverTlsTest {
  private static final String WORD = "a word for the store";
  private static final String PASSWORD = "correct horse battery";
  private static final Pattern SAID =
      Pattern.compile("The page is at (https://\\S+), benches connect to (ssl://[^;]+);");
  @TempDir Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int command(String... arguments) {
    CommandLine command = HostCommand.commandLine();
    command.setErr(new PrintWriter(err, true));
    command.setOut(new PrintWriter(out, true));
    return command.execute(arguments);
  }

  /** A certificate of the test's own, made by the tool that comes with Java. */
  private Path keyStore() throws Exception {
    Path file = folder.resolve("keys.p12");
    Process tool =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
                "-genkeypair",
                "-alias",
                "host",
                "-keyalg",
                "EC",
                "-storetype",
                "PKCS12",
                "-keystore",
                file.toString(),
                "-storepass",
                WORD,
                "-dname",
                "CN=localhost",
                "-ext",
                "san=ip:127.0.0.1,dns:localhost")
            .redirectErrorStream(true)
            .start();
    String said = new String(tool.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, tool.waitFor(), said);
    return file;
  }

  private static SSLContext trusting(Path file) throws Exception {
    KeyStore keys = KeyStore.getInstance("PKCS12");
    try (InputStream in = Files.newInputStream(file)) {
      keys.load(in, WORD.toCharArray());
    }
    KeyStore trusted = KeyStore.getInstance("PKCS12");
    trusted.load(null, null);
    trusted.setCertificateEntry("host", keys.getCertificate("host"));
    TrustManagerFactory managers =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    managers.init(trusted);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, managers.getTrustManagers(), null);
    return context;
  }

  /** In text as well as in JSON, with all there is to log, no secret stands in the log. */
  @ParameterizedTest
  @ValueSource(strings = {"text", "json"})
  void aPersonSignsInByHttpsAndABenchElsewhereComesByTlsWithItsKey(String log) throws Exception {
    Path data = folder.resolve("data");
    Path keyStore = keyStore();
    Path word = Files.writeString(folder.resolve("word"), WORD + "\n");
    String key = addPersonAndBench(data);
    int port = LoopbackPort.anyFree("benches", "--broker-listen").number();
    SSLContext tls = trusting(keyStore);
    try (HostProcess host =
        HostProcess.run(
            List.of("-Xmx128m"),
            Map.of("CUPWARDEN_LOG", log, "CUPWARDEN_LOG_LEVEL", "debug"),
            data,
            "--listen",
            "127.0.0.1",
            "--broker-listen",
            "127.0.0.1:" + port,
            "--broker-port",
            Integer.toString(LoopbackPort.anyFree("the broker", "--broker-port").number()),
            "--tls-keystore",
            keyStore.toString(),
            "--tls-password-file",
            word.toString())) {
      Matcher said = SAID.matcher(host.said());
      assertTrue(said.find(), host.said());
      String broker = said.group(2);
      assertThrows(MqttException.class, () -> bench(broker, tls, "guessed"));
      MqttClient bench = bench(broker, tls, key);
      Topics topics = new Topics("sill");
      bench.publish(topics.setup(), bytes(Spoken.setup(Spoken.EIGHT, "A1:currant")), 1, true);
      bench.publish(topics.events(), bytes(Spoken.dose("e", 1, "A1", Spoken.EIGHT)), 1, false);
      bench.disconnect();
      bench.close();
      assertSeenByWhoSignsIn(URI.create(said.group(1)), tls);
      for (String secret : List.of(WORD, key, PASSWORD, "guessed")) {
        assertFalse(host.said().contains(secret), host.said());
      }
      if (log.equals("json")) {
        assertEveryLineIsOneObject(host.said());
      }
    }
  }

  /** But the one that tells a person where the page is, which is not a log. */
  private static void assertEveryLineIsOneObject(String said) throws Exception {
    List<String> lines = said.lines().filter(line -> !SAID.matcher(line).find()).toList();
    boolean connected = false;
    for (String line : lines) {
      JsonNode each = Json.MAPPER.readTree(line);
      Instant.parse(each.path("time").asText());
      for (String field : List.of("level", "logger", "message")) {
        assertTrue(each.path(field).isTextual(), line);
      }
      connected |= each.path("broker").asText().startsWith("tcp://127.0.0.1:");
    }
    assertTrue(connected, "the broker is a field of its own: " + said);
  }

  private String addPersonAndBench(Path data) {
    InputStream before = System.in;
    System.setIn(new ByteArrayInputStream((PASSWORD + "\n").getBytes(StandardCharsets.UTF_8)));
    try {
      assertEquals(
          0, command("user", "add", "gardener", "--data", data.toString()), err.toString());
    } finally {
      System.setIn(before);
    }
    out.getBuffer().setLength(0);
    assertEquals(0, command("user", "bench", "sill", "--data", data.toString()), err.toString());
    return out.toString().strip();
  }

  private static byte[] bytes(Object message) throws Exception {
    return Json.MAPPER.writeValueAsBytes(message);
  }

  private static MqttClient bench(String broker, SSLContext tls, String key) throws MqttException {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setSocketFactory(tls.getSocketFactory());
    options.setUserName("sill");
    options.setPassword(key.getBytes(StandardCharsets.UTF_8));
    MqttClient client = new MqttClient(broker, "cupwarden-sill", new MemoryPersistence());
    client.connect(options);
    return client;
  }

  private static void assertSeenByWhoSignsIn(URI page, SSLContext tls) throws Exception {
    HttpClient http = HttpClient.newBuilder().sslContext(tls).build();
    URI events = page.resolve("api/benches/sill/events");
    assertEquals(401, send(http, HttpRequest.newBuilder(events)).statusCode());
    String body =
        Json.MAPPER.writeValueAsString(
            Json.MAPPER.createObjectNode().put("name", "gardener").put("password", PASSWORD));
    HttpResponse<String> in =
        send(
            http,
            HttpRequest.newBuilder(page.resolve("api/session"))
                .header("Content-Type", "application/json")
                .header("Origin", page.toString().replaceAll("/$", ""))
                .POST(HttpRequest.BodyPublishers.ofString(body)));
    assertEquals(200, in.statusCode(), in.body());
    String cookie = in.headers().firstValue("Set-Cookie").orElseThrow();
    assertTrue(cookie.contains("Secure"), cookie);
    HttpRequest.Builder asks =
        HttpRequest.newBuilder(events).header("Cookie", cookie.substring(0, cookie.indexOf(';')));
    await("the bench comes through")
        .atMost(Duration.ofSeconds(30))
        .until(() -> send(http, asks).body().contains("dose"));
  }

  private static HttpResponse<String> send(HttpClient http, HttpRequest.Builder request)
      throws Exception {
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void withoutTlsOrAWordForItOrAKeyTheBrokerStaysHere() {
    String data = folder.resolve("other").toString();
    assertEquals(1, command("run", "--data", data, "--broker-listen", "0.0.0.0"));
    assertTrue(err.toString().contains("--plain-mqtt"), err.toString());
    assertEquals(1, command("run", "--data", data, "--broker-listen", "not an address"));
    String[] open = {
      "run", "--data", data, "--port", "0", "--broker-listen", "127.0.0.1:1", "--plain-mqtt"
    };
    open[4] = Integer.toString(LoopbackPort.anyFree("the page", "--port").number());
    assertEquals(1, command(open));
    assertTrue(err.toString().contains("user bench"), err.toString());
    for (List<String> wrong :
        List.of(
            List.of("--plain-mqtt"),
            List.of("--plain-http"),
            List.of("--tls-keystore", "x"),
            List.of("--tls-keystore", "x", "--tls-password-file", "y"),
            List.of("--broker", "tcp://h:1", "--broker-listen", "0.0.0.0", "--plain-mqtt"))) {
      List<String> line = new java.util.ArrayList<>(List.of("run", "--data", data));
      line.addAll(wrong);
      assertEquals(2, command(line.toArray(new String[0])), wrong.toString());
    }
  }
}
