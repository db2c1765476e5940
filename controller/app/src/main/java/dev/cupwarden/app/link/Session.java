package dev.cupwarden.app.link;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.eclipse.paho.mqttv5.common.packet.MqttPubAck;
import org.eclipse.paho.mqttv5.common.packet.MqttReturnCode;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One connection to a broker, from its start to its end. A lost one is not mended: the next is
 * another object, and what was under way is sent again from the outbox.
 */
final class Session implements AutoCloseable {
  /** Takes what comes in; called on the client library's thread, and before the broker is told. */
  interface Incoming {
    void message(String topic, byte[] payload, boolean retained);

    /** The broker has given the connection to another client of the same name. */
    void takenOver();
  }

  /** Told, on the client library's thread, what became of a message at the broker. */
  interface Acknowledgement {
    /**
     * @param given false when the broker has it and gave it to nobody, or did not take it
     */
    void come(boolean given);
  }

  /** Below the receive maximum that brokers usually grant (10 to 20). */
  static final int MOST_IN_FLIGHT = 8;

  /** Orders wait this long at the broker for a controller that is away; each has its own expiry. */
  private static final Duration SESSION_EXPIRY = Duration.ofDays(7);

  private static final Duration ANSWER = Duration.ofSeconds(10);

  /** A broker that takes this long to acknowledge is connected but does not flow. */
  private static final Duration STALLED = Duration.ofSeconds(30);

  private static final int KEEP_ALIVE_S = 30;

  /**
   * What is longer the broker must not even send (MQTT 5, section 3.1.2.11.4): it would have to be
   * held whole before it could be refused.
   */
  private static final long MOST_BYTES = 128 * 1024;

  private static final int TAKEN_OVER = 0x8E;
  private static final Logger log = LoggerFactory.getLogger(Session.class);

  // The library writes a stack trace for every broken connection by its own logger; what is worth
  // telling is told here. Held by a field, for a logger that nobody holds forgets its level.
  private static final java.util.logging.Logger LIBRARY =
      java.util.logging.Logger.getLogger("org.eclipse.paho.mqttv5.client");

  static {
    LIBRARY.setLevel(java.util.logging.Level.OFF);
  }

  private final MqttAsyncClient client;
  private final AtomicBoolean alive = new AtomicBoolean(true);
  private final Runnable wake;
  private int permits = MOST_IN_FLIGHT;
  private Semaphore inFlight = new Semaphore(MOST_IN_FLIGHT);

  private Session(MqttAsyncClient client, Runnable wake) {
    this.client = client;
    this.wake = wake;
  }

  /**
   * Connects, with a last will.
   *
   * @param wake run when the connection has been lost
   */
  static Session connect(
      BrokerSettings broker,
      String clientId,
      String willTopic,
      byte[] will,
      Incoming incoming,
      Runnable wake)
      throws MqttException {
    MqttAsyncClient client =
        new MqttAsyncClient(broker.uri().toString(), clientId, new MemoryPersistence());
    Session session = new Session(client, wake);
    client.setCallback(session.callback(incoming));
    try {
      IMqttToken connected = client.connect(options(broker, willTopic, will));
      connected.waitForCompletion(ANSWER.toMillis());
      session.limitInFlight(connected.getResponseProperties());
      return session;
    } catch (MqttException e) {
      session.alive.set(false);
      session.close();
      throw e;
    }
  }

  private static MqttConnectionOptions options(
      BrokerSettings broker, String willTopic, byte[] will) {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setCleanStart(false);
    options.setSessionExpiryInterval(SESSION_EXPIRY.toSeconds());
    options.setAutomaticReconnect(false);
    options.setConnectionTimeout((int) ANSWER.toSeconds());
    options.setKeepAliveInterval(KEEP_ALIVE_S);
    options.setReceiveMaximum(MOST_IN_FLIGHT);
    options.setMaximumPacketSize(MOST_BYTES);
    options.setWill(willTopic, PublishRule.PRESENCE.message(will));
    broker.user().ifPresent(options::setUserName);
    broker.password().ifPresent(word -> options.setPassword(word.getBytes(StandardCharsets.UTF_8)));
    return options;
  }

  private void limitInFlight(MqttProperties granted) {
    Integer receiveMaximum = granted == null ? null : granted.getReceiveMaximum();
    if (receiveMaximum != null && receiveMaximum < permits) {
      permits = receiveMaximum;
      inFlight = new Semaphore(permits);
    }
  }

  private MqttCallback callback(Incoming incoming) {
    return new MqttCallback() {
      @Override
      public void messageArrived(String topic, MqttMessage message) {
        incoming.message(topic, message.getPayload(), message.isRetained());
      }

      @Override
      public void disconnected(MqttDisconnectResponse response) {
        if (response != null && response.getReturnCode() == TAKEN_OVER) {
          incoming.takenOver();
        }
        lost();
      }

      @Override
      public void mqttErrorOccurred(MqttException e) {
        log.warn("MQTT: {}", e.getMessage());
      }

      @Override
      public void deliveryComplete(IMqttToken token) {}

      @Override
      public void connectComplete(boolean reconnect, String uri) {}

      @Override
      public void authPacketArrived(int reasonCode, MqttProperties properties) {}
    };
  }

  private void lost() {
    alive.set(false);
    wake.run();
  }

  /** At least once, with the retain flag as it was published. */
  void subscribe(String... topics) throws MqttException {
    MqttSubscription[] wanted = new MqttSubscription[topics.length];
    for (int i = 0; i < topics.length; i++) {
      wanted[i] = new MqttSubscription(topics[i], 1);
      wanted[i].setRetainAsPublished(true);
    }
    client.subscribe(wanted, null, null, new MqttProperties()).waitForCompletion(ANSWER.toMillis());
  }

  boolean isAlive() {
    return alive.get() && client.isConnected();
  }

  /**
   * Sends, waiting for room among those in flight.
   *
   * @param acknowledged told when the broker has answered
   * @return false when the connection is lost or does not flow
   */
  boolean send(String topic, byte[] payload, PublishRule how, Acknowledgement acknowledged)
      throws InterruptedException, MqttException {
    if (!isAlive()) {
      return false;
    }
    if (!inFlight.tryAcquire(STALLED.toMillis(), TimeUnit.MILLISECONDS)) {
      log.warn("MQTT: connected, but nothing was acknowledged for {} s", STALLED.toSeconds());
      alive.set(false);
      return false;
    }
    try {
      client.publish(topic, how.message(payload), null, onAcknowledged(acknowledged));
      return true;
    } catch (MqttException e) {
      inFlight.release();
      throw e;
    }
  }

  /**
   * Sends what nobody acknowledges, past those in flight.
   *
   * @return false when the connection is lost
   */
  boolean say(String topic, byte[] payload, PublishRule how) throws MqttException {
    if (!isAlive()) {
      return false;
    }
    client.publish(topic, how.message(payload));
    return true;
  }

  private MqttActionListener onAcknowledged(Acknowledgement acknowledged) {
    return new MqttActionListener() {
      @Override
      public void onSuccess(IMqttToken token) {
        inFlight.release();
        acknowledged.come(isGiven(token));
      }

      @Override
      public void onFailure(IMqttToken token, Throwable because) {
        inFlight.release();
        log.warn("MQTT: a message was not taken: {}", because.getMessage());
        lost();
      }
    };
  }

  private static boolean isGiven(IMqttToken token) {
    return !(token.getResponse() instanceof MqttPubAck answer)
        || answer.getReturnCode() == MqttReturnCode.RETURN_CODE_SUCCESS;
  }

  /** Waits until all that was sent is acknowledged, for a while. */
  void awaitAnswers(Duration most) throws InterruptedException {
    if (inFlight.tryAcquire(permits, most.toMillis(), TimeUnit.MILLISECONDS)) {
      inFlight.release(permits);
    }
  }

  /** Ends it; a connection that still stands is ended in order, which cancels the will. */
  @Override
  public void close() {
    boolean inOrder = isAlive();
    alive.set(false);
    try {
      if (inOrder) {
        client.disconnect(ANSWER.toMillis()).waitForCompletion(ANSWER.toMillis());
      } else {
        client.disconnectForcibly(0, 0, false);
      }
    } catch (MqttException e) {
      log.debug("MQTT: ending the connection: {}", e.getMessage());
    }
    try {
      client.close(true);
    } catch (MqttException e) {
      log.debug("MQTT: closing the client: {}", e.getMessage());
    }
  }
}
