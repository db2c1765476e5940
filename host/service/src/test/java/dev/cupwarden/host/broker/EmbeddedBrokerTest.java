package dev.cupwarden.host.broker;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.WireClient;
import dev.cupwarden.host.broker.HostMqttLink.Credential;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EmbeddedBrokerTest {
  @TempDir Path folder;

  @Test
  void carriesARetainedMessageAndLeavesNoFolderBehind() throws Exception {
    Path work = folder.resolve("broker");
    try (EmbeddedBroker broker =
            EmbeddedBroker.start(
                LoopbackPort.anyFree("the broker", "--broker-port"), work, access(Map.of()));
        WireClient client = new WireClient(broker.uri())) {
      client.publish("a/b", "hello".getBytes(StandardCharsets.UTF_8), true);
      BlockingQueue<WireClient.Heard> heard = client.listen("a/#");
      assertEquals("hello", WireClient.next(heard).payload());
    }
    assertFalse(Files.exists(work));
  }

  /** Benches with their keys. */
  private static BrokerAccess access(Map<String, String> keys) {
    return new BrokerAccess(
        new BrokerAccess.Keys() {
          @Override
          public boolean any() {
            return !keys.isEmpty();
          }

          @Override
          public boolean matches(String bench, char[] key) {
            return String.valueOf(key).equals(keys.get(bench));
          }
        },
        new Credential("the-host", "its password"));
  }

  private static MqttClient client(EmbeddedBroker broker, String id, String user, String password)
      throws MqttException {
    MqttConnectionOptions options = new MqttConnectionOptions();
    if (user != null) {
      options.setUserName(user);
      options.setPassword(password.getBytes(StandardCharsets.UTF_8));
    }
    MqttClient client = new MqttClient(broker.uri(), id, new MemoryPersistence());
    client.connect(options);
    return client;
  }

  @Test
  void aBenchComesInByItsKeyAndCannotSpeakOrHearAsAnother() throws Exception {
    try (EmbeddedBroker broker =
        EmbeddedBroker.start(
            LoopbackPort.anyFree("the broker", "--broker-port"),
            folder.resolve("broker"),
            access(Map.of("sill", "sill's key", "shed", "shed's key")))) {
      for (String[] wrong :
          new String[][] {
            {"anybody", null, null},
            {"cupwarden-sill", "sill", "shed's key"},
            {"cupwarden-sill", "nobody", "sill's key"},
            {"cupwarden-shed", "sill", "sill's key"},
            {"host", "the-host", "guessed"}
          }) {
        assertThrows(MqttException.class, () -> client(broker, wrong[0], wrong[1], wrong[2]));
      }
      MqttClient host = client(broker, "host", "the-host", "its password");
      BlockingQueue<String> heard = new LinkedBlockingQueue<>();
      host.setCallback(new Hearing(heard));
      host.subscribe("#", 1);
      MqttClient sill = client(broker, "cupwarden-sill", "sill", "sill's key");
      for (String topic :
          List.of(
              "cupwarden/v1/shed/events",
              "cupwarden/v1/shed/presence",
              "cupwarden/v1/sill/orders",
              "cupwarden/v1/sill/kept",
              "other")) {
        tryToPublish(sill, topic);
        sill = sill.isConnected() ? sill : client(broker, "cupwarden-sill", "sill", "sill's key");
      }
      for (String filter :
          List.of("cupwarden/v1/shed/orders", "#", "cupwarden/v1/sill/#", "cupwarden/v1/+/kept")) {
        MqttClient asks = sill;
        assertThrows(MqttException.class, () -> subscribe(asks, filter), filter);
        sill = sill.isConnected() ? sill : client(broker, "cupwarden-sill", "sill", "sill's key");
      }
      sill.publish("cupwarden/v1/sill/events", new byte[] {1}, 1, false);
      sill.subscribe("cupwarden/v1/sill/orders", 1);
      assertEquals("cupwarden/v1/sill/events", heard.poll(20, TimeUnit.SECONDS));
      sill.disconnect();
      host.disconnect();
    }
  }

  private static void subscribe(MqttClient client, String filter) throws MqttException {
    int granted = client.subscribe(filter, 1).getReasonCodes()[0];
    if (granted > 2) {
      throw new MqttException(granted);
    }
  }

  /** The broker may say no or end the connection; the host is to hear nothing either way. */
  private static void tryToPublish(MqttClient client, String topic) {
    try {
      client.publish(topic, new byte[] {2}, 1, false);
    } catch (MqttException refused) {
      assertFalse(topic.isEmpty(), refused.toString());
    }
  }

  private record Hearing(BlockingQueue<String> heard) implements MqttCallback {
    @Override
    public void messageArrived(String topic, MqttMessage message) {
      heard.add(topic);
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {}

    @Override
    public void mqttErrorOccurred(MqttException error) {}

    @Override
    public void deliveryComplete(IMqttToken token) {}

    @Override
    public void connectComplete(boolean again, String uri) {}

    @Override
    public void authPacketArrived(int reason, MqttProperties properties) {}
  }

  @Test
  void aTakenPortIsRefusedWithASentence() throws IOException {
    try (ServerSocket other = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      LoopbackPort port = new LoopbackPort(other.getLocalPort(), "the broker", "--broker-port");
      HostException refused =
          assertThrows(
              HostException.class,
              () -> EmbeddedBroker.start(port, folder.resolve("b"), access(Map.of())));
      assertTrue(refused.getMessage().contains("is taken"), refused.getMessage());
      assertTrue(refused.getMessage().contains("--broker-port"), refused.getMessage());
    }
  }
}
