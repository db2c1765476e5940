package dev.cupwarden.app.link;

import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.service.LoopProgress;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Topics;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps a connection to the broker and tells it what the journal holds, on a thread of its own.
 * What the loop hands over is either in the journal already or only the latest state, so nothing is
 * lost and nothing piles up while there is no broker.
 */
public final class ControllerMqttLink implements AutoCloseable {
  private static final Logger log = LoggerFactory.getLogger(ControllerMqttLink.class);
  private static final Duration FIRST_WAIT = Duration.ofMillis(500);
  private static final Duration LONGEST_WAIT = Duration.ofSeconds(30);

  /** How often to look when nobody wakes the thread. */
  private static final Duration LOOK = Duration.ofSeconds(1);

  private static final Duration FAREWELL = Duration.ofSeconds(2);

  private final BrokerSettings broker;
  private final Topics topics;
  private final Supplier<Instant> now;
  private final Incoming incoming;
  private final Sender sender;
  private final NameConflictDetector conflicts;
  private final HeartbeatSender beats;
  private final BlockingQueue<Boolean> wake = new ArrayBlockingQueue<>(1);
  private final Thread thread;
  private final Set<String> told = new TreeSet<>();
  private BenchSetup setup;
  private volatile boolean closing;
  private volatile boolean online;

  private ControllerMqttLink(
      BrokerSettings broker,
      Topics topics,
      Outbox outbox,
      Supplier<Instant> now,
      LoopProgress progress,
      Duration settling) {
    this.broker = broker;
    this.topics = topics;
    this.now = now;
    this.sender = new Sender(topics, outbox, settling);
    this.conflicts = new NameConflictDetector(progress.instance());
    this.incoming = new Incoming(topics, outbox, now, sender, conflicts, this::wake);
    this.beats = new HeartbeatSender(topics, now, progress::beat);
    this.thread = new Thread(this::run, "link");
    this.thread.setDaemon(true);
  }

  /**
   * Starts to look for the broker; returns at once.
   *
   * @param now the bench's time, against which orders are stale
   * @param progress what the loop notes of itself
   */
  public static ControllerMqttLink start(
      BrokerSettings broker,
      Topics topics,
      Outbox outbox,
      Supplier<Instant> now,
      LoopProgress progress) {
    return start(broker, topics, outbox, now, progress, Sender.SETTLING);
  }

  /** Likewise, with another time for which a pack stays after the broker has taken it. */
  static ControllerMqttLink start(
      BrokerSettings broker,
      Topics topics,
      Outbox outbox,
      Supplier<Instant> now,
      LoopProgress progress,
      Duration settling) {
    ControllerMqttLink link =
        new ControllerMqttLink(broker, topics, outbox, now, progress, settling);
    link.thread.start();
    return link;
  }

  /** How the bench is set up; told when it changes. From the same thread as {@link #ticked}. */
  public void setUp(BenchSetup now) {
    if (!now.sameAs(setup)) {
      setup = now;
      sender.latest(topics.setup(), payload(now));
      wake();
    }
  }

  /**
   * The state after a tick; what the tick put into the journal is found there. A cup that is no
   * longer there leaves nothing at the broker.
   */
  public void ticked(List<CupStatus> cups, BenchStatus bench) {
    Set<String> gone = new TreeSet<>(told);
    for (CupStatus cup : cups) {
      sender.latest(topics.cup(cup.cup()), payload(cup));
      gone.remove(cup.cup());
      told.add(cup.cup());
    }
    told.removeAll(gone);
    gone.forEach(cup -> sender.latest(topics.cup(cup), new byte[0]));
    sender.latest(topics.benchStatus(), payload(bench));
    wake();
  }

  /** Whether another controller goes by the same name, as far as was seen lately. */
  public boolean hasRival() {
    return conflicts.any(System.nanoTime());
  }

  /** Whether a beat was said within that time. */
  public boolean awaitBeat(Duration most) throws InterruptedException {
    return beats.awaitFirst(most);
  }

  /** Whether the broker is there. */
  public boolean isOnline() {
    return online;
  }

  private void wake() {
    wake.offer(true);
  }

  private void run() {
    Backoff backoff = new Backoff(FIRST_WAIT, LONGEST_WAIT, ThreadLocalRandom.current());
    try {
      while (!closing) {
        try (Session session = connect()) {
          log.info("MQTT: online at {}", broker);
          // Two of one name would else take turns many times a second.
          if (!hasRival()) {
            backoff.reset();
          }
          online = true;
          serve(session);
          if (closing) {
            farewell(session);
          }
        } catch (MqttException | JournalException e) {
          log.warn("MQTT: {}", said(e));
        } catch (RuntimeException e) {
          // Whatever broke this connection, the bench must not be without one for good.
          log.error("MQTT: a connection broke off", e);
        } finally {
          online = false;
          beats.on(null);
        }
        await(backoff.next());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private Session connect() throws MqttException {
    byte[] will = presence("offline");
    Session session =
        Session.connect(
            broker, "cupwarden-" + topics.bench(), topics.presence(), will, incoming, this::wake);
    try {
      session.subscribe(topics.orders(), topics.kept());
      hearOurselves(session);
      return session;
    } catch (MqttException e) {
      session.close();
      throw e;
    }
  }

  /** What is said in our name; a broker that does not allow it only means that we know less. */
  private void hearOurselves(Session session) {
    try {
      session.subscribe(topics.presence(), topics.beat());
    } catch (MqttException e) {
      log.warn("MQTT: what others say by our name is not told to us: {}", said(e));
    }
  }

  private byte[] presence(String state) {
    byte[] presence = payload(new Presence(state, now.get()));
    conflicts.says(presence);
    return presence;
  }

  private void serve(Session session) throws InterruptedException, MqttException, JournalException {
    session.send(topics.presence(), presence("online"), PublishRule.PRESENCE, given -> {});
    beats.on(session);
    sender.beginAgain();
    while (!closing && session.isAlive()) {
      sender.sendAll(session);
      wake.poll(LOOK.toMillis(), TimeUnit.MILLISECONDS);
    }
  }

  private void farewell(Session session)
      throws InterruptedException, MqttException, JournalException {
    sender.sendAll(session);
    session.send(topics.presence(), presence("offline"), PublishRule.PRESENCE, given -> {});
    session.awaitAnswers(FAREWELL);
  }

  private void await(Duration time) throws InterruptedException {
    long until = System.nanoTime() + time.toNanos();
    while (!closing && System.nanoTime() < until) {
      wake.poll(until - System.nanoTime(), TimeUnit.NANOSECONDS);
    }
  }

  private static String said(Exception e) {
    Throwable cause = e.getCause() == null ? e : e.getCause();
    return cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
  }

  static byte[] payload(Object message) {
    return Json.written(message).getBytes(StandardCharsets.UTF_8);
  }

  /** Says offline and ends, within a few seconds whether or not there is a broker. */
  @Override
  public void close() {
    closing = true;
    beats.close();
    wake();
    try {
      thread.join(FAREWELL.multipliedBy(2).toMillis());
      thread.interrupt();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
