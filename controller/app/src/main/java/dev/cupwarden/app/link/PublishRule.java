package dev.cupwarden.app.link;

import java.time.Duration;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/**
 * How each kind of message travels: at least once, but for beats, of which the next one says more;
 * what stays at the broker and how long.
 */
enum PublishRule {
  /** Stays until the next one; never grows old by itself, since silence is what it tells. */
  PRESENCE(true, Duration.ZERO),
  /** Not for anybody who comes later: one that waited would tell of life that has ended. */
  BEAT(false, Duration.ofMinutes(1), 0),
  /** The last state stays for a season's absence, no longer. */
  STATUS(true, Duration.ofDays(30)),
  READINGS(false, Duration.ofDays(7)),
  /** The outbox sends it again; the broker need not hold it for ever. */
  EVENT(false, Duration.ofDays(7)),
  RECEIPT(false, Duration.ofDays(1));

  private final boolean retained;
  private final Duration expiry;
  private final int qos;

  PublishRule(boolean retained, Duration expiry) {
    this(retained, expiry, 1);
  }

  PublishRule(boolean retained, Duration expiry, int qos) {
    this.retained = retained;
    this.expiry = expiry;
    this.qos = qos;
  }

  MqttMessage message(byte[] payload) {
    MqttMessage message = new MqttMessage(payload);
    message.setQos(qos);
    message.setRetained(retained);
    MqttProperties properties = new MqttProperties();
    if (!expiry.isZero()) {
      properties.setMessageExpiryInterval(expiry.toSeconds());
    }
    properties.setPayloadFormat(true);
    properties.setContentType("application/json");
    message.setProperties(properties);
    return message;
  }
}
