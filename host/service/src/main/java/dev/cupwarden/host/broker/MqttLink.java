package dev.cupwarden.host.broker;

import dev.cupwarden.host.HostException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;
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
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The host's connection to a broker: subscribes, hands over what comes, publishes, and connects
 * again by itself with a growing, jittered delay.
 *
 * <p>A message is acknowledged only when the receiver says so, after it has stored it. The broker
 * has at most {@link #RECEIVE_MAXIMUM} messages under way without that, and keeps the rest: this is
 * the back-pressure of the whole host.
 */
public final class MqttLink implements AutoCloseable {
  /** Messages handed over and not yet acknowledged, at most. */
  public static final int RECEIVE_MAXIMUM = 500;

  private static final Logger LOG = LoggerFactory.getLogger(MqttLink.class);
  private static final long SESSION_EXPIRY_S = 7L * 24 * 3600;
  private static final long FIRST_DELAY_MS = 250;
  private static final long LONGEST_DELAY_MS = 30_000;
  private static final long CLOSE_LIMIT_MS = 2_000;
  private static final int KEEP_ALIVE_S = 30;
  private static final int QOS = 1;

  private final MqttAsyncClient client;
  private final List<String> filters;
  private final Receiver receiver;
  private final ScheduledExecutorService redial =
      Executors.newSingleThreadScheduledExecutor(MqttLink::daemon);
  private final CountDownLatch firstConnection = new CountDownLatch(1);
  private volatile boolean closing;
  private Optional<Credential> credential = Optional.empty();

  /** Name and word at the broker; neither is ever printed. */
  public record Credential(String user, String word) {
    @Override
    public String toString() {
      return "a credential";
    }
  }

  /** Takes what comes from the broker, on the client's own thread; blocking it holds all back. */
  public interface Receiver {
    void receive(Delivery delivery) throws InterruptedException;

    /** Connected and subscribed, the first time or again. */
    void connected();
  }

  /**
   * A message.
   *
   * @param retained kept by the broker from earlier, not said just now
   * @param acknowledge to be run once the message is safe
   */
  public record Delivery(String topic, byte[] payload, boolean retained, Runnable acknowledge) {}

  private MqttLink(MqttAsyncClient client, List<String> filters, Receiver receiver) {
    this.client = client;
    this.filters = filters;
    this.receiver = receiver;
  }

  /**
   * Begins to connect and returns at once.
   *
   * @param uri {@code tcp://host:port} or {@code ssl://host:port}
   * @param clientId the same again after a restart, so that the broker keeps what was missed
   * @param filters what to subscribe to; shared ones begin with {@code $share/}
   */
  public static MqttLink open(
      String uri, String clientId, List<String> filters, Receiver receiver) {
    return open(uri, clientId, Optional.empty(), filters, receiver);
  }

  /** Likewise, with a name and a word for the broker. */
  public static MqttLink open(
      String uri,
      String clientId,
      Optional<Credential> credential,
      List<String> filters,
      Receiver receiver) {
    try {
      MqttAsyncClient client = new MqttAsyncClient(uri, clientId, new MemoryPersistence());
      client.setManualAcks(true);
      MqttLink link = new MqttLink(client, filters, receiver);
      link.credential = credential;
      client.setCallback(link.new Callback());
      link.dial(0);
      return link;
    } catch (MqttException | IllegalArgumentException refused) {
      throw new HostException(
          "The broker's address " + uri + " is not understood: expected tcp://host:port.", refused);
    }
  }

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work, "mqtt-redial");
    thread.setDaemon(true);
    return thread;
  }

  private MqttConnectionOptions options() {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setCleanStart(false);
    options.setSessionExpiryInterval(SESSION_EXPIRY_S);
    options.setReceiveMaximum(RECEIVE_MAXIMUM);
    options.setKeepAliveInterval(KEEP_ALIVE_S);
    options.setAutomaticReconnect(false);
    credential.ifPresent(
        known -> {
          options.setUserName(known.user());
          options.setPassword(known.word().getBytes(StandardCharsets.UTF_8));
        });
    return options;
  }

  private void dial(int attempt) {
    if (closing) {
      return;
    }
    try {
      client.connect(options(), null, new Dialled(attempt));
    } catch (MqttException failed) {
      redialAfter(attempt, failed);
    }
  }

  private void redialAfter(int attempt, Throwable why) {
    if (closing) {
      return;
    }
    if (attempt == 0) {
      LOG.warn("No connection to the broker at {}: {}; trying on", client.getServerURI(), why);
    }
    long longest = Math.min(LONGEST_DELAY_MS, FIRST_DELAY_MS << Math.min(attempt, 10));
    long delayMs = longest / 2 + ThreadLocalRandom.current().nextLong(longest / 2 + 1);
    try {
      redial.schedule(() -> dial(attempt + 1), delayMs, TimeUnit.MILLISECONDS);
    } catch (RejectedExecutionException closed) {
      LOG.debug("closed while connecting again", closed);
    }
  }

  /** Connected and subscribed within the time given? */
  public boolean awaitConnection(long limitMs) throws InterruptedException {
    return firstConnection.await(limitMs, TimeUnit.MILLISECONDS);
  }

  public boolean isConnected() {
    return client.isConnected();
  }

  /**
   * Publishes at least once; completes when the broker has it.
   *
   * @param expiryS seconds after which the broker drops it undelivered, 0 for never
   */
  public CompletableFuture<Void> publish(
      String topic, byte[] payload, boolean retained, long expiryS) {
    MqttMessage message = new MqttMessage(payload, QOS, retained, new MqttProperties());
    if (expiryS > 0) {
      message.getProperties().setMessageExpiryInterval(expiryS);
    }
    CompletableFuture<Void> done = new CompletableFuture<>();
    try {
      client.publish(topic, message, null, new Published(done));
    } catch (MqttException failed) {
      done.completeExceptionally(failed);
    }
    return done;
  }

  @Override
  public void close() {
    closing = true;
    redial.shutdownNow();
    try {
      if (client.isConnected()) {
        client.disconnect(0).waitForCompletion(CLOSE_LIMIT_MS);
      }
      client.close(true);
    } catch (MqttException gone) {
      LOG.debug("the connection was gone already", gone);
    }
  }

  private static MqttSubscription subscription(String filter) {
    MqttSubscription subscription = new MqttSubscription(filter, QOS);
    // MQTT 5, section 3.8.3.1: not to be asked for on a shared subscription.
    subscription.setNoLocal(!filter.startsWith("$share/"));
    return subscription;
  }

  private final class Dialled implements MqttActionListener {
    private final int attempt;

    Dialled(int attempt) {
      this.attempt = attempt;
    }

    @Override
    public void onSuccess(IMqttToken token) {
      try {
        client.subscribe(
            filters.stream().map(MqttLink::subscription).toArray(MqttSubscription[]::new),
            null,
            new Subscribed(),
            new MqttProperties());
      } catch (MqttException failed) {
        redialAfter(attempt, failed);
      }
    }

    @Override
    public void onFailure(IMqttToken token, Throwable why) {
      redialAfter(attempt, why);
    }
  }

  private final class Subscribed implements MqttActionListener {
    @Override
    public void onSuccess(IMqttToken token) {
      LOG.info("connected to the broker at {}", client.getServerURI());
      firstConnection.countDown();
      receiver.connected();
    }

    @Override
    public void onFailure(IMqttToken token, Throwable why) {
      LOG.error(
          "the broker at {} refuses {}: {}", client.getServerURI(), filters, String.valueOf(why));
    }
  }

  private record Published(CompletableFuture<Void> done) implements MqttActionListener {
    @Override
    public void onSuccess(IMqttToken token) {
      done.complete(null);
    }

    @Override
    public void onFailure(IMqttToken token, Throwable why) {
      done.completeExceptionally(why);
    }
  }

  private final class Callback implements MqttCallback {
    @Override
    public void messageArrived(String topic, MqttMessage message) throws InterruptedException {
      int id = message.getId();
      int qos = message.getQos();
      receiver.receive(
          new Delivery(
              topic, message.getPayload(), message.isRetained(), () -> acknowledge(id, qos)));
    }

    private void acknowledge(int id, int qos) {
      try {
        client.messageArrivedComplete(id, qos);
      } catch (MqttException gone) {
        // The broker will send it again over the next connection; its key makes it once.
        LOG.debug("acknowledged too late", gone);
      }
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {
      redialAfter(0, response.getException());
    }

    @Override
    public void mqttErrorOccurred(MqttException error) {
      LOG.warn("The broker's answer was not understood: {}", String.valueOf(error));
    }

    @Override
    public void deliveryComplete(IMqttToken token) {}

    @Override
    public void connectComplete(boolean again, String uri) {}

    @Override
    public void authPacketArrived(int reason, MqttProperties properties) {}
  }
}
