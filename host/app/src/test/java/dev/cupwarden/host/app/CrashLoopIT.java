package dev.cupwarden.host.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.BrokerProcess;
import dev.cupwarden.host.app.wire.HostProcess;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.eclipse.paho.mqttv5.client.IMqttMessageListener;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The packaged controller in the hands of a service manager that starts it again and again, and
 * that sees it killed before it finishes a tick; beside it a broker and a host, each a process.
 * Before, presence counted as life, and nobody was told.
 */
class CrashLoopIT {
  private static final Path CONTROLLER = Path.of("..", "..", "controller", "app");
  private static final Topics TOPICS = new Topics("back-room");
  private static final Duration LIMIT = Duration.ofSeconds(90);

  /** The unit of the package has it as {@code RestartSec}. */
  private static final long RESTART_S = 2;

  /** Of what the host says of a controller that is started in vain. */
  private static final String IN_VAIN = "starts without a finished tick";

  /** The bench's time goes so slowly that its first tick would take minutes. */
  private static final String NO_TICK = "0.001";

  /** A tick of five minutes in five seconds. */
  private static final String QUICK = "60";

  /** More than the alert needs; the test ends in any case. */
  private static final int MOST_STARTS = 12;

  @TempDir Path folder;
  private final HttpClient http = HttpClient.newHttpClient();
  private final BlockingQueue<JsonNode> beats = new LinkedBlockingQueue<>();
  private BrokerProcess broker;
  private HostProcess host;
  private MqttClient ear;

  /** It is told that it starts in vain before it goes on: so early it is killed. */
  private volatile boolean killsAtBeat;

  private volatile Process run;

  @BeforeEach
  void start() throws Exception {
    broker = BrokerProcess.start(Files.createDirectory(folder.resolve("broker")));
    host = HostProcess.run(folder.resolve("host"), "--broker", broker.uri());
    ear = new MqttClient(broker.uri(), "ear", new MemoryPersistence());
    ear.connect();
    IMqttMessageListener listener =
        (topic, message) -> {
          if (killsAtBeat) {
            run.destroyForcibly();
          }
          beats.add(Json.MAPPER.readTree(message.getPayload()));
        };
    ear.subscribe(
        new MqttSubscription[] {new MqttSubscription(TOPICS.beat(), 1)},
        new IMqttMessageListener[] {listener});
    try (InputStream bench = Json.class.getResourceAsStream("/dev/cupwarden/app/back-room.yaml")) {
      Files.copy(bench, folder.resolve("bench.yaml"));
    }
  }

  @AfterEach
  void stop() throws Exception {
    if (run != null) {
      run.destroyForcibly();
    }
    ear.disconnectForcibly(0, 0);
    ear.close();
    host.close();
    broker.close();
  }

  private void startController(String speed) throws IOException {
    run =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "@" + CONTROLLER.resolve(Path.of("src", "deb", "java-options")),
                "-jar",
                CONTROLLER.resolve(Path.of("target", "cupwarden-controller.jar")).toString(),
                "run",
                "--simulate",
                "--speed",
                speed,
                "--bench",
                folder.resolve("bench.yaml").toString(),
                "--journal",
                folder.resolve("journal.db").toString(),
                "--broker",
                broker.uri())
            .redirectErrorStream(true)
            .redirectOutput(
                ProcessBuilder.Redirect.appendTo(folder.resolve("controller.log").toFile()))
            .start();
  }

  private Optional<JsonNode> silence() throws Exception {
    Matcher page = Pattern.compile("The page is at (http://\\S+)").matcher(host.said());
    assertTrue(page.find(), host.said());
    URI alerts = URI.create(page.group(1)).resolve("/api/benches/back-room/alerts");
    String body =
        http.send(HttpRequest.newBuilder(alerts).build(), HttpResponse.BodyHandlers.ofString())
            .body();
    for (JsonNode alert : Json.MAPPER.readTree(body)) {
      if (alert.path("code").asText().equals("controller-silent")) {
        return Optional.of(alert);
      }
    }
    return Optional.empty();
  }

  /** How many starts, that of the running process among them, have come to no tick so far. */
  private int inVain() {
    try {
      return Json.MAPPER
          .readTree(folder.resolve("journal.db.starts").toFile())
          .path("in_vain")
          .asInt();
    } catch (IOException beingWritten) {
      return 0;
    }
  }

  private void kill() throws InterruptedException {
    run.destroyForcibly();
    assertTrue(run.waitFor(LIMIT.toSeconds(), TimeUnit.SECONDS));
    TimeUnit.SECONDS.sleep(RESTART_S);
  }

  private void awaitStart(int start) {
    await("start " + start)
        .pollInterval(Duration.ofMillis(5))
        .atMost(LIMIT)
        .failFast(() -> assertTrue(run.isAlive()))
        .until(() -> inVain() == start);
  }

  @Test
  void threeStartsInVainAreToldByTheFourthAndNothingOfThemIsTakenForLife() throws Exception {
    for (int start = 1; start <= 3; start++) {
      startController(NO_TICK);
      awaitStart(start);
      assertEquals(Optional.empty(), silence(), "a restart is no silence");
      kill();
    }
    killsAtBeat = true;
    for (int start = 4; start <= MOST_STARTS && silence().isEmpty(); start++) {
      startController(NO_TICK);
      JsonNode beat = beats.poll(LIMIT.toSeconds(), TimeUnit.SECONDS);
      assertEquals(start - 1, beat.get("starts_in_vain").asInt(), "it says so before it goes on");
      assertEquals(0, beat.get("tick").asInt());
      kill();
    }
    killsAtBeat = false;
    JsonNode told = silence().orElseThrow();
    assertTrue(told.toString().contains(IN_VAIN), told.toString());
    startController(QUICK);
    await("a tick is finished").atMost(LIMIT.multipliedBy(2)).until(() -> silence().isEmpty());
  }
}
