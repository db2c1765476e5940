package dev.cupwarden.host.app.attack;

import dev.cupwarden.core.messages.Json;
import java.nio.charset.StandardCharsets;
import java.util.function.BiConsumer;
import org.eclipse.paho.mqttv5.client.IMqttMessageListener;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttSubscription;

/** A bench's side of the wire, with its name and key. */
final class KeyedClient implements AutoCloseable {
  private final MqttClient client;

  KeyedClient(String uri, String bench, String key) throws MqttException {
    client = new MqttClient(uri, "cupwarden-" + bench, new MemoryPersistence());
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setUserName(bench);
    options.setPassword(key.getBytes(StandardCharsets.UTF_8));
    options.setReceiveMaximum(1000);
    options.setConnectionTimeout(20);
    try {
      client.connect(options);
    } catch (MqttException refused) {
      client.close(true);
      throw refused;
    }
  }

  void say(String topic, Object message) throws MqttException {
    client.publish(topic, Json.written(message).getBytes(StandardCharsets.UTF_8), 1, false);
  }

  void say(String topic, byte[] payload) throws MqttException {
    client.publish(topic, payload, 1, false);
  }

  void hear(String topic, BiConsumer<String, byte[]> hears) throws MqttException {
    IMqttMessageListener listener = (where, message) -> hears.accept(where, message.getPayload());
    client.subscribe(
        new MqttSubscription[] {new MqttSubscription(topic, 1)},
        new IMqttMessageListener[] {listener});
  }

  @Override
  public void close() throws MqttException {
    client.disconnectForcibly(0, 1_000, false);
    client.close(true);
  }
}
