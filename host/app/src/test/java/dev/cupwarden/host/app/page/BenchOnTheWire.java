package dev.cupwarden.host.app.page;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Topics;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;

/** A canned bench that speaks to a real host as its controller would. */
final class BenchOnTheWire implements AutoCloseable {
  static final Topics TOPICS = new Topics(StubHost.BENCH);
  private final MqttClient wire;
  private long seq;

  BenchOnTheWire(String brokerUri) throws MqttException {
    wire = new MqttClient(brokerUri, "bench-" + System.nanoTime(), new MemoryPersistence());
    wire.connect();
  }

  void tellAllOf(StubHost bench) throws MqttException, JsonProcessingException {
    tell(TOPICS.setup(), bench.setup());
    tell(TOPICS.presence(), new Presence("online", bench.now));
    tell(TOPICS.benchStatus(), bench.status());
    for (CannedCup cup : bench.cups.values()) {
      tell(TOPICS.cup(cup.name), cup.status);
    }
  }

  void tell(String topic, Object message) throws MqttException, JsonProcessingException {
    wire.publish(topic, Json.MAPPER.writeValueAsBytes(message), 1, true);
  }

  void alert(AlertNotice notice) throws MqttException, JsonProcessingException {
    seq++;
    Event event =
        new Event(
            "e1", seq, notice.since(), "alert", notice.cup(), Json.MAPPER.valueToTree(notice));
    wire.publish(TOPICS.events(), Json.MAPPER.writeValueAsBytes(event), 1, false);
  }

  @Override
  public void close() throws MqttException {
    if (wire.isConnected()) {
      wire.disconnect();
    }
    wire.close();
  }
}
