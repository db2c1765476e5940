package dev.cupwarden.app.link;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/** Another party on the broker: hears everything, and can say something. */
public final class Listener implements AutoCloseable {
  /**
   * What was heard.
   *
   * @param expiryS message expiry as received, null when it had none
   */
  public record Heard(String topic, JsonNode body, boolean retained, Long expiryS) {}

  private final MqttAsyncClient client;
  private final List<Heard> heard = new ArrayList<>();

  public Listener(URI broker) throws MqttException {
    client =
        new MqttAsyncClient(
            broker.toString(), "listener-" + UUID.randomUUID(), new MemoryPersistence());
    client.setCallback(
        new MqttCallback() {
          @Override
          public void messageArrived(String topic, MqttMessage message) throws IOException {
            JsonNode body = Json.MAPPER.readTree(message.getPayload());
            Long expiry = message.getProperties().getMessageExpiryInterval();
            synchronized (heard) {
              heard.add(new Heard(topic, body, message.isRetained(), expiry));
            }
          }

          @Override
          public void disconnected(MqttDisconnectResponse response) {}

          @Override
          public void mqttErrorOccurred(MqttException e) {}

          @Override
          public void deliveryComplete(IMqttToken token) {}

          @Override
          public void connectComplete(boolean reconnect, String uri) {}

          @Override
          public void authPacketArrived(int reasonCode, MqttProperties properties) {}
        });
    client.connect().waitForCompletion(5_000);
    client.subscribe("cupwarden/v1/#", 1).waitForCompletion(5_000);
  }

  public void say(String topic, String body, boolean retained) throws MqttException {
    MqttMessage message = new MqttMessage(body.getBytes(StandardCharsets.UTF_8));
    message.setQos(1);
    message.setRetained(retained);
    client.publish(topic, message).waitForCompletion(5_000);
  }

  public List<Heard> on(String topic) {
    synchronized (heard) {
      return heard.stream()
          .filter(one -> one.topic().equals(topic))
          .collect(Collectors.toUnmodifiableList());
    }
  }

  public List<Heard> all() {
    synchronized (heard) {
      return List.copyOf(heard);
    }
  }

  @Override
  public void close() throws MqttException {
    // The broker may be dead by now: no farewell, nothing to wait for.
    client.disconnectForcibly(0, 0, false);
    client.close(true);
  }
}
