package dev.cupwarden.host;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Json;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.IMqttMessageListener;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttSubscription;

/** A plain MQTT 5 client for tests: speaks as a bench would, and listens. */
public final class WireClient implements AutoCloseable {
  private static final long LIMIT_S = 20;
  private final MqttClient client;

  /** What was heard, with its topic. */
  public record Heard(String topic, String payload, boolean retained) {}

  public WireClient(String uri) {
    try {
      client = new MqttClient(uri, "wire-" + System.nanoTime(), new MemoryPersistence());
      MqttConnectionOptions options = new MqttConnectionOptions();
      options.setReceiveMaximum(1000);
      client.connect(options);
    } catch (MqttException failed) {
      throw new IllegalStateException(failed);
    }
  }

  public void publish(String topic, Object message, boolean retained) {
    try {
      publish(topic, Json.MAPPER.writeValueAsBytes(message), retained);
    } catch (JsonProcessingException failed) {
      throw new IllegalStateException(failed);
    }
  }

  public void publish(String topic, byte[] payload, boolean retained) {
    try {
      client.publish(topic, payload, 1, retained);
    } catch (MqttException failed) {
      throw new IllegalStateException(failed);
    }
  }

  /** Everything on a topic filter from now on, retained ones first. */
  public BlockingQueue<Heard> listen(String filter) {
    BlockingQueue<Heard> heard = new LinkedBlockingQueue<>();
    IMqttMessageListener listener =
        (topic, message) ->
            heard.add(
                new Heard(
                    topic,
                    new String(message.getPayload(), StandardCharsets.UTF_8),
                    message.isRetained()));
    try {
      client.subscribe(
          new MqttSubscription[] {new MqttSubscription(filter, 1)},
          new IMqttMessageListener[] {listener});
    } catch (MqttException failed) {
      throw new IllegalStateException(failed);
    }
    return heard;
  }

  /** The next one heard, or null after a bounded wait. */
  public static Heard next(BlockingQueue<Heard> heard) throws InterruptedException {
    return heard.poll(LIMIT_S, TimeUnit.SECONDS);
  }

  @Override
  public void close() {
    try {
      client.disconnect();
      client.close();
    } catch (MqttException gone) {
      throw new IllegalStateException(gone);
    }
  }
}
