package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.store.ContentFault;
import dev.cupwarden.host.store.RejectedMessages.RejectedRow;
import dev.cupwarden.host.store.Store;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One thread that takes what has come, stores it in one transaction, acknowledges it, tells the
 * bench how far its journal is kept, and shows it to whoever is looking; in this order, so that
 * nothing is acknowledged that could still be lost.
 *
 * <p>While the database is away the same messages are tried again and again; the queue fills, no
 * acknowledgement leaves, and the broker keeps the rest.
 */
public final class Ingest implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Ingest.class);

  /**
   * Of all that is received and not stored, so that large messages fill no more memory than many.
   */
  private static final int MOST_BYTES = 4 << 20;

  /** Of what is stored at once: some 50,000 readings, each of which is many objects meanwhile. */
  private static final int BATCH_BYTES = 2 << 20;

  private static final long POLL_MS = 200;
  private static final long FIRST_PAUSE_MS = 100;
  private static final long LONGEST_PAUSE_MS = 5_000;
  private static final long CLOSE_LIMIT_MS = 5_000;
  private static final int HEAD_BYTES = 512;
  private static final int OVERHEAD_BYTES = 1_024;

  private final Store store;
  private final InstantSource clock;
  private final Consumer<LiveEvent> live;
  private final KeptTeller teller;
  private final AlertListener alertListener;
  private final Consumer<Exception> refused;
  private final StandbyListener standbyListener;
  private final Ticks ticks = new Ticks();
  private final MessageReader reader = new MessageReader();
  private final Gaps gaps = new Gaps();
  private final BlockingQueue<Delivery> queue = new LinkedBlockingQueue<>();
  private final Semaphore roomBytes = new Semaphore(MOST_BYTES);
  private final AtomicReference<Counts> counts = new AtomicReference<>(Counts.NONE);
  private final Thread thread = new Thread(this::work, "ingest");
  private volatile boolean closing;
  private volatile Instant waitingSince;
  private volatile List<Delivery> inHand = List.of();

  /** Tells a bench how far its journal is kept. */
  @FunctionalInterface
  public interface KeptTeller {
    void tell(String topic, byte[] payload);
  }

  public Ingest(
      Store store,
      InstantSource clock,
      Consumer<LiveEvent> live,
      KeptTeller teller,
      AlertListener alertListener) {
    this(store, clock, live, teller, alertListener, (bench, beat) -> {}, failed -> {});
  }

  /**
   * @param beats hears each beat
   * @param refused hears why the store did not take what came
   */
  public Ingest(
      Store store,
      InstantSource clock,
      Consumer<LiveEvent> live,
      KeptTeller teller,
      AlertListener alertListener,
      BiConsumer<String, Beat> beats,
      Consumer<Exception> refused) {
    this.refused = refused;
    this.standbyListener = new StandbyListener(store, alertListener, beats);
    this.alertListener = alertListener;
    this.store = store;
    this.clock = clock;
    this.live = live;
    this.teller = teller;
  }

  public void start() {
    thread.start();
  }

  /** Takes one message, and waits while there is too much. A beat is heard at once, not stored. */
  public void receive(Delivery delivery) throws InterruptedException {
    if (standbyListener.beat(delivery)) {
      delivery.acknowledge().run();
      counts.updateAndGet(before -> before.plus(new Counts(1, 0, 0, 0, 0)));
      return;
    }
    roomBytes.acquire(sizeOf(delivery));
    queue.put(delivery);
  }

  /** With what goes with a payload, however short. */
  private static int sizeOf(Delivery delivery) {
    return Math.min(MOST_BYTES, OVERHEAD_BYTES + delivery.payload().length);
  }

  public Counts counts() {
    return counts.get();
  }

  /** Since when what has come could not be stored; empty while it can. */
  public Optional<Instant> waitingSince() {
    return Optional.ofNullable(waitingSince);
  }

  /** Looks for alerts among what waits to be stored. */
  public void overhearWaiting() {
    standbyListener.begin();
    List.copyOf(inHand).forEach(standbyListener::overhear);
    queue.forEach(standbyListener::overhear);
  }

  /** Looks for a beat or an alert in what has come over another connection. */
  public void overhear(Delivery delivery) {
    standbyListener.overhear(delivery);
  }

  /** Messages received and not stored yet. */
  public int backlog() {
    return queue.size();
  }

  private void work() {
    List<Delivery> batch = new ArrayList<>();
    while (!closing || !queue.isEmpty()) {
      try {
        Delivery first = queue.poll(POLL_MS, TimeUnit.MILLISECONDS);
        if (first != null) {
          fill(batch, first);
          storeUntilDone(batch);
        }
      } catch (InterruptedException stopped) {
        LOG.debug("ingest stopped; what is not acknowledged comes again", stopped);
        return;
      } catch (RuntimeException unforeseen) {
        // Not acknowledged, so nothing is lost: it comes again over the next connection.
        LOG.atError()
            .addKeyValue("messages", batch.size())
            .setCause(unforeseen)
            .log("{} messages could not be taken in", batch.size());
      }
      batch.forEach(each -> roomBytes.release(sizeOf(each)));
      batch.clear();
    }
  }

  private void fill(List<Delivery> batch, Delivery first) {
    int bytes = 0;
    for (Delivery next = first; next != null; next = bytes < BATCH_BYTES ? queue.poll() : null) {
      batch.add(next);
      bytes += sizeOf(next);
    }
  }

  private void storeUntilDone(List<Delivery> deliveries) throws InterruptedException {
    long pauseMs = FIRST_PAUSE_MS;
    Outcome outcome = tryStore(deliveries);
    while (outcome == Outcome.LATER) {
      if (waitingSince == null) {
        waitingSince = clock.instant();
        inHand = List.copyOf(deliveries);
      }
      TimeUnit.MILLISECONDS.sleep(pauseMs);
      pauseMs = Math.min(LONGEST_PAUSE_MS, 2 * pauseMs);
      outcome = tryStore(deliveries);
    }
    waitingSince = null;
    inHand = List.of();
    if (outcome == Outcome.NEVER) {
      setAside(deliveries);
    }
  }

  /** One message that no table takes must not hold up the others: each is tried for itself. */
  private void setAside(List<Delivery> deliveries) throws InterruptedException {
    if (deliveries.size() > 1) {
      for (Delivery each : deliveries) {
        storeUntilDone(List.of(each));
      }
      return;
    }
    Delivery only = deliveries.get(0);
    Attempt attempt = new Attempt();
    attempt.malformed = 1;
    store.write(
        handle -> {
          attempt.batch = new Batch(store, handle, gaps, ticks, alertListener, clock.instant());
          setAside(attempt.batch, only, "no table takes it");
          attempt.batch.finish();
        });
    done(List.of(only), attempt);
  }

  private enum Outcome {
    STORED,
    /** The store is away, locked or full. */
    LATER,
    /** It would be refused again. */
    NEVER
  }

  private Outcome tryStore(List<Delivery> deliveries) {
    Attempt attempt = new Attempt();
    try {
      store.write(
          handle -> {
            attempt.batch = new Batch(store, handle, gaps, ticks, alertListener, clock.instant());
            deliveries.forEach(delivery -> attempt.malformed += add(attempt.batch, delivery));
            attempt.batch.finish();
          });
    } catch (JdbiException | IllegalStateException failed) {
      LOG.atWarn()
          .addKeyValue("messages", deliveries.size())
          .log("{} messages could not be stored yet: {}", deliveries.size(), failed.toString());
      refused.accept(failed);
      return ContentFault.isIn(failed) ? Outcome.NEVER : Outcome.LATER;
    }
    done(deliveries, attempt);
    return Outcome.STORED;
  }

  private static final class Attempt {
    Batch batch;
    int malformed;
  }

  /** How many were malformed: 0 or 1. */
  private int add(Batch batch, Delivery delivery) {
    try {
      batch.add(reader.read(delivery.topic(), delivery.payload()), delivery.retained());
      return 0;
    } catch (MalformedException malformed) {
      setAside(batch, delivery, malformed.getMessage());
      return 1;
    }
  }

  private void setAside(Batch batch, Delivery delivery, String reason) {
    RejectedRow row = asideRow(delivery, reason);
    reader
        .numberOf(delivery.topic(), delivery.payload())
        .ifPresentOrElse(number -> batch.setAside(row, number), () -> batch.setAside(row));
  }

  private RejectedRow asideRow(Delivery delivery, String reason) {
    byte[] payload = delivery.payload();
    String head =
        new String(payload, 0, Math.min(payload.length, HEAD_BYTES), StandardCharsets.UTF_8)
            .replaceAll("\\p{Cntrl}", "\uFFFD");
    return new RejectedRow(clock.instant(), delivery.topic(), reason, payload.length, head);
  }

  private void done(List<Delivery> deliveries, Attempt attempt) {
    Batch batch = attempt.batch;
    deliveries.forEach(delivery -> delivery.acknowledge().run());
    store.readings().remember(batch.readings());
    counts.updateAndGet(
        before ->
            before.plus(
                new Counts(
                    deliveries.size(),
                    batch.readings().size(),
                    attempt.malformed,
                    batch.doubles(),
                    batch.passedOver())));
    batch.kept().forEach(this::tellKept);
    batch.tellLive(live);
  }

  private void tellKept(Batch.Journal journal, long seq) {
    try {
      teller.tell(
          new Topics(journal.bench()).kept(),
          Json.MAPPER.writeValueAsBytes(new Kept(journal.epoch(), seq)));
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("a mark cannot be written", impossible);
    }
  }

  /**
   * Stores what it has in hand and stops; what the store does not take in time was not acknowledged
   * and comes again.
   */
  @Override
  public void close() {
    closing = true;
    try {
      thread.join(CLOSE_LIMIT_MS);
      if (thread.isAlive()) {
        thread.interrupt();
        thread.join(CLOSE_LIMIT_MS);
      }
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
    }
  }
}
