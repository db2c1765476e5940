package dev.cupwarden.app.link;

import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Topics;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import java.util.function.Supplier;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Says a beat at once on each connection, and then every minute of real time. On a thread of its
 * own, since a long outbox may keep the link's busy for longer than a host waits for a beat; what a
 * beat says is the loop's.
 */
final class HeartbeatSender implements AutoCloseable {
  static final Duration EVERY = Duration.ofMinutes(1);

  private static final Duration LOOK = Duration.ofSeconds(1);
  private static final Logger log = LoggerFactory.getLogger(HeartbeatSender.class);

  private final Topics topics;
  private final Supplier<Instant> now;
  private final Function<Instant, Beat> pulse;
  private final CountDownLatch closing = new CountDownLatch(1);
  private final CountDownLatch said = new CountDownLatch(1);
  private volatile Session session;

  HeartbeatSender(Topics topics, Supplier<Instant> now, Function<Instant, Beat> pulse) {
    this.topics = topics;
    this.now = now;
    this.pulse = pulse;
    Thread thread = new Thread(this::run, "beats");
    thread.setDaemon(true);
    thread.start();
  }

  /** On this connection from now on; null where there is none. */
  void on(Session connected) {
    session = connected;
  }

  /** Whether the first was said within that time. */
  boolean awaitFirst(Duration most) throws InterruptedException {
    return said.await(most.toMillis(), TimeUnit.MILLISECONDS);
  }

  private void run() {
    Session last = null;
    long dueNanos = System.nanoTime();
    try {
      do {
        Session connected = session;
        boolean due = connected != last || System.nanoTime() - dueNanos >= 0;
        if (connected != null && due && say(connected)) {
          last = connected;
          dueNanos = System.nanoTime() + EVERY.toNanos();
          said.countDown();
        }
      } while (!closing.await(LOOK.toMillis(), TimeUnit.MILLISECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private boolean say(Session connected) {
    try {
      return connected.say(
          topics.beat(), ControllerMqttLink.payload(pulse.apply(now.get())), PublishRule.BEAT);
    } catch (MqttException e) {
      log.debug("MQTT: a beat was not said: {}", e.getMessage());
      return false;
    }
  }

  @Override
  public void close() {
    closing.countDown();
  }
}
