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
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
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
public final class HostMqttLink implements AutoCloseable {
  /** Messages handed over and not yet acknowledged, at most. */
  public static final int RECEIVE_MAXIMUM = 500;

  private static final Logger LOG = LoggerFactory.getLogger(HostMqttLink.class);
  private static final long SESSION_EXPIRY_S = 7L * 24 * 3600;
  private static final long FIRST_DELAY_MS = 250;
  private static final long LONGEST_DELAY_MS = 30_000;
  private static final long CLOSE_LIMIT_MS = 2_000;
  private static final int KEEP_ALIVE_S = 30;
  private static final int QOS = 1;
  private static final String SHARE = "$share/";

  private final String uri;
  private final String clientId;
  private final Optional<Credential> credential;
  private final List<String> filters;
  private final boolean passing;
  private final Receiver receiver;
  private final ScheduledExecutorService redial =
      Executors.newSingleThreadScheduledExecutor(HostMqttLink::daemon);
  private final CountDownLatch firstConnection = new CountDownLatch(1);
  private volatile boolean closing;
  private volatile Connection current;

  /** Name and password at the broker; neither is ever printed. */
  public record Credential(String user, String password) {
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

  private HostMqttLink(
      String uri,
      String clientId,
      Optional<Credential> credential,
      List<String> filters,
      boolean passing,
      Receiver receiver)
      throws MqttException {
    this.passing = passing;
    this.uri = uri;
    this.clientId = clientId;
    this.credential = credential;
    this.filters = filters;
    this.receiver = receiver;
    this.current = new Connection(0);
  }

  /**
   * Begins to connect and returns at once.
   *
   * @param uri {@code tcp://host:port} or {@code ssl://host:port}
   * @param clientId the same again after a restart, so that the broker keeps what was missed
   * @param filters what to subscribe to; shared ones begin with {@code $share/}
   */
  public static HostMqttLink open(
      String uri, String clientId, List<String> filters, Receiver receiver) {
    return open(uri, clientId, Optional.empty(), filters, receiver);
  }

  /** Likewise, with a name and a password for the broker. */
  public static HostMqttLink open(
      String uri,
      String clientId,
      Optional<Credential> credential,
      List<String> filters,
      Receiver receiver) {
    boolean shared = filters.stream().anyMatch(filter -> filter.startsWith(SHARE));
    return open(uri, clientId, credential, filters, shared, receiver);
  }

  /** Likewise, of which the broker keeps nothing once it is closed or lost. */
  public static HostMqttLink passing(
      String uri,
      String clientId,
      Optional<Credential> credential,
      List<String> filters,
      Receiver receiver) {
    return open(uri, clientId, credential, filters, true, receiver);
  }

  private static HostMqttLink open(
      String uri,
      String clientId,
      Optional<Credential> credential,
      List<String> filters,
      boolean passing,
      Receiver receiver) {
    try {
      HostMqttLink link = new HostMqttLink(uri, clientId, credential, filters, passing, receiver);
      link.current.dial();
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
    // The session of a host that shares the load ends with its connection: a broker goes on dealing
    // its share to one that is away for as long as the session lasts, where the others do not see
    // it.
    options.setCleanStart(passing);
    options.setSessionExpiryInterval(passing ? 0 : SESSION_EXPIRY_S);
    options.setReceiveMaximum(RECEIVE_MAXIMUM);
    options.setKeepAliveInterval(KEEP_ALIVE_S);
    options.setAutomaticReconnect(false);
    if (uri.startsWith("tcp:")) {
      options.setSocketFactory(new UndelayedSockets());
    }
    credential.ifPresent(
        known -> {
          options.setUserName(known.user());
          options.setPassword(known.password().getBytes(StandardCharsets.UTF_8));
        });
    return options;
  }

  private void redialAfter(int attempt, Throwable why) {
    if (closing) {
      return;
    }
    if (attempt == 0) {
      LOG.atWarn()
          .addKeyValue("broker", uri)
          .log("No connection to the broker at {}: {}; trying on", uri, String.valueOf(why));
    }
    long longest = Math.min(LONGEST_DELAY_MS, FIRST_DELAY_MS << Math.min(attempt, 10));
    long delayMs = longest / 2 + ThreadLocalRandom.current().nextLong(longest / 2 + 1);
    try {
      var unused = redial.schedule(() -> redial(attempt + 1), delayMs, TimeUnit.MILLISECONDS);
    } catch (RejectedExecutionException closed) {
      LOG.debug("closed while connecting again", closed);
    }
  }

  /** Whatever goes wrong, there is a next try: nobody else would connect again. */
  private void redial(int attempt) {
    current.end();
    if (closing) {
      return;
    }
    try {
      current = new Connection(attempt);
      current.dial();
    } catch (MqttException | RuntimeException failed) {
      redialAfter(attempt, failed);
    }
  }

  /** Connected and subscribed within the time given? */
  public boolean awaitConnection(long limitMs) throws InterruptedException {
    return firstConnection.await(limitMs, TimeUnit.MILLISECONDS);
  }

  public boolean isConnected() {
    return current.client.isConnected();
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
      current.client.publish(topic, message, null, new Published(done));
    } catch (MqttException failed) {
      done.completeExceptionally(failed);
    }
    return done;
  }

  @Override
  public void close() {
    closing = true;
    redial.shutdownNow();
    Connection last = current;
    try {
      if (last.client.isConnected()) {
        last.client.disconnect(0).waitForCompletion(CLOSE_LIMIT_MS);
      }
    } catch (MqttException gone) {
      LOG.debug("the connection was gone already", gone);
    }
    last.end();
  }

  private static MqttSubscription subscription(String filter) {
    MqttSubscription subscription = new MqttSubscription(filter, QOS);
    // MQTT 5, section 3.8.3.1: not to be asked for on a shared subscription.
    subscription.setNoLocal(!filter.startsWith(SHARE));
    return subscription;
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

  /**
   * One connection, from its dialling to its end. The next is another object with another client,
   * so that what came over this one is never acknowledged over that one, where its number may
   * belong to a message that is not stored, and a broker that knows no such number hangs up.
   */
  private final class Connection implements MqttCallback {
    private final MqttAsyncClient client;
    private final int attempt;
    private final AtomicBoolean lost = new AtomicBoolean();

    Connection(int attempt) throws MqttException {
      this.attempt = attempt;
      client = new MqttAsyncClient(uri, clientId, new MemoryPersistence());
      client.setManualAcks(true);
      client.setCallback(this);
    }

    void dial() {
      try {
        client.connect(
            options(), null, new Answer(this::subscribe, refused -> lost(attempt, refused)));
      } catch (MqttException failed) {
        lost(attempt, failed);
      }
    }

    private void subscribe() {
      try {
        client.subscribe(
            filters.stream().map(HostMqttLink::subscription).toArray(MqttSubscription[]::new),
            null,
            new Answer(this::subscribed, this::unsubscribed),
            new MqttProperties());
      } catch (MqttException failed) {
        lost(attempt, failed);
      }
    }

    private void subscribed() {
      LOG.atInfo().addKeyValue("broker", uri).log("Connected to the broker at {}", uri);
      firstConnection.countDown();
      receiver.connected();
    }

    private void unsubscribed(Throwable why) {
      LOG.atWarn()
          .addKeyValue("broker", uri)
          .log("The broker at {} did not take {}: {}", uri, filters, String.valueOf(why));
      lost(attempt, why);
    }

    /** However many ways it is noticed, it is dialled again once. */
    private void lost(int attempts, Throwable why) {
      if (lost.compareAndSet(false, true)) {
        redialAfter(attempts, why);
      }
    }

    /** Lets go of it; an orderly farewell is not said here. */
    void end() {
      lost.set(true);
      try {
        if (client.isConnected()) {
          client.disconnectForcibly(0, CLOSE_LIMIT_MS, false);
        }
        client.close(true);
      } catch (MqttException | RuntimeException gone) {
        LOG.debug("the connection was gone already", gone);
      }
    }

    @Override
    public void messageArrived(String topic, MqttMessage message) throws InterruptedException {
      int id = message.getId();
      int qos = message.getQos();
      receiver.receive(
          new Delivery(
              topic, message.getPayload(), message.isRetained(), () -> acknowledge(id, qos)));
    }

    private void acknowledge(int id, int qos) {
      if (lost.get()) {
        return; // The broker sends it again over the next connection; its key makes it once.
      }
      try {
        client.messageArrivedComplete(id, qos);
      } catch (MqttException gone) {
        LOG.debug("acknowledged too late", gone);
      }
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {
      lost(0, response.getException());
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

  private record Answer(Runnable taken, Consumer<Throwable> refused) implements MqttActionListener {
    @Override
    public void onSuccess(IMqttToken token) {
      taken.run();
    }

    @Override
    public void onFailure(IMqttToken token, Throwable why) {
      refused.accept(why);
    }
  }
}
