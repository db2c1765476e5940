package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.loop.RunMode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import org.eclipse.paho.mqttv5.client.IMqttMessageListener;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The AsyncAPI document held against what a controller and a host really say to each other. */
class LiveWireIT {
  private static final long LIMIT_S = 120;
  @TempDir Path folder;

  private record Heard(String topic, byte[] payload, boolean retained) {}

  /** Channel, how its topics look, and the schema of its messages. */
  private record Channel(String name, Pattern topics, String schema, boolean retained) {}

  private static Map<String, Channel> channels() throws Exception {
    JsonNode document;
    try (InputStream in = Json.class.getResourceAsStream("asyncapi.json")) {
      document = Json.MAPPER.readTree(in);
    }
    assertEquals("3.0.0", document.get("asyncapi").asText());
    Map<String, Channel> channels = new TreeMap<>();
    document
        .get("operations")
        .forEach(
            operation -> {
              String name =
                  operation.at("/channel/$ref").asText().substring("#/channels/".length());
              JsonNode channel = document.get("channels").get(name);
              String address = channel.get("address").asText().replaceAll("\\{\\w+}", "[^/]+");
              String schema = channel.at("/messages/message/payload/schema/$ref").asText();
              channels.put(
                  name,
                  new Channel(
                      name,
                      Pattern.compile(address),
                      schema.replaceAll("^schema/|\\.schema\\.json$", ""),
                      operation.at("/bindings/mqtt/retain").asBoolean()));
            });
    return channels;
  }

  @Test
  void everythingThatIsSaidIsInTheDocumentAndFitsItsSchema() throws Exception {
    Map<String, Channel> channels = channels();
    AtomicReference<DemoBench> bench = new AtomicReference<>();
    HostSettings settings =
        HostSettings.local(
                folder,
                LoopbackPort.anyFree("the page", "--port"),
                LoopbackPort.anyFree("the broker", "--broker-port"))
            .inTime(
                () -> bench.get() == null ? Instant.now() : bench.get().now(), Duration.ofHours(6));
    BlockingQueue<Heard> heard = new LinkedBlockingQueue<>();
    try (Host host = Host.start(settings)) {
      MqttClient ear = listen(host.brokerUri(), heard);
      URI broker = URI.create(host.brokerUri());
      bench.set(
          DemoBench.start(
              new DemoBench.Plan(broker, folder.resolve("bench"), 1, 1500, RunMode.AS_LEFT),
              t -> {}));
      try {
        Set<String> missing = new TreeSet<>(channels.keySet());
        boolean ordered = false;
        long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(LIMIT_S);
        while (!missing.isEmpty()) {
          assertTrue(System.nanoTime() < until, "never said: " + missing);
          Heard one = heard.poll(1, TimeUnit.SECONDS);
          if (one != null) {
            missing.remove(check(channels, one));
          }
          if (!ordered && !missing.contains("cup")) {
            ordered = order(host);
          }
        }
      } finally {
        bench.get().close();
        ear.disconnect();
        ear.close();
      }
    }
  }

  private static MqttClient listen(String uri, BlockingQueue<Heard> heard) throws Exception {
    MqttClient ear = new MqttClient(uri, "ear", new MemoryPersistence());
    ear.connect();
    IMqttMessageListener listener =
        (topic, message) -> heard.add(new Heard(topic, message.getPayload(), message.isRetained()));
    MqttSubscription everything = new MqttSubscription("#", 1);
    everything.setRetainAsPublished(true);
    ear.subscribe(new MqttSubscription[] {everything}, new IMqttMessageListener[] {listener});
    return ear;
  }

  private static String check(Map<String, Channel> channels, Heard one) throws Exception {
    Channel channel =
        channels.values().stream()
            .filter(each -> each.topics().matcher(one.topic()).matches())
            .findFirst()
            .orElseThrow(() -> new AssertionError(one.topic() + " is not in the document"));
    JsonNode message = Json.MAPPER.readTree(new String(one.payload(), StandardCharsets.UTF_8));
    Schemas.assertFits(channel.schema(), message);
    assertEquals(channel.retained(), one.retained(), one.topic());
    return channel.name();
  }

  private static boolean order(Host host) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(host.address()).resolve("/api/benches/back-room/orders"))
            .header("Content-Type", "application/json")
            .POST(
                HttpRequest.BodyPublishers.ofString(
                    "{\"kind\":\"stage\",\"cup\":\"A1\",\"stage\":\"white\"}"))
            .build();
    return HttpClient.newHttpClient()
            .send(request, HttpResponse.BodyHandlers.ofString())
            .statusCode()
        == 200;
  }
}
