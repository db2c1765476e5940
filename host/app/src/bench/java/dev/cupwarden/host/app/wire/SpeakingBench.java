package dev.cupwarden.host.app.wire;

import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.UndelayedSockets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/**
 * What a bench of so many cups says, each second: a pack with the weight of each cup, the state of
 * one cup in sixty, and of one in fifty that it was watered, which is far more often than one is. No
 * word is said again: what the host loses stays in the back-log.
 */
final class SpeakingBench implements AutoCloseable {
  private static final int STATE_EVERY_S = 60;
  private static final int DOSE_EVERY_S = 50;
  private static final int INFLIGHT = 1_000;
  private static final String EPOCH = "load";

  private final int cups;
  private final String name;
  private final Topics topics;
  private final MqttAsyncClient client;
  private final ScheduledExecutorService clock = Executors.newSingleThreadScheduledExecutor();
  private final Map<Long, Long> saidNs = new ConcurrentHashMap<>();
  private final AtomicLong readings = new AtomicLong();
  private final AtomicLong events = new AtomicLong();
  private final AtomicLong kept = new AtomicLong();
  private final List<Double> latenciesMs = new ArrayList<>();
  private final AtomicReference<Throwable> failed = new AtomicReference<>();
  private long second;

  SpeakingBench(String name, int cups, String broker) throws MqttException {
    this.name = name;
    this.cups = cups;
    topics = new Topics(name);
    client = new MqttAsyncClient(broker, "cupwarden-" + name, new MemoryPersistence());
    client.setCallback(new Listening());
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setReceiveMaximum(INFLIGHT);
    options.setSocketFactory(new UndelayedSockets());
    client.connect(options).waitForCompletion();
    client.subscribe(topics.kept(), 1).waitForCompletion();
  }

  void start() {
    ScheduledFuture<?> unused =
        clock.scheduleAtFixedRate(this::trySpeak, 0, 1, TimeUnit.SECONDS);
  }

  /** Says no more; what is under way goes on. */
  void stop() throws InterruptedException {
    clock.shutdown();
    clock.awaitTermination(10, TimeUnit.SECONDS);
  }

  private void trySpeak() {
    try {
      speak();
    } catch (Exception wrong) {
      failed.compareAndSet(null, wrong);
      throw new IllegalStateException(wrong);
    }
  }

  private void speak() throws Exception {
    Instant now = Instant.now();
    List<SenmlRecord> pack = new ArrayList<>();
    for (int cup = 0; cup < cups; cup++) {
      boolean first = cup == 0;
      pack.add(
          new SenmlRecord(
              first ? name + "/" : null,
              first ? now.toEpochMilli() / 1000.0 : null,
              "C" + cup + "/mass",
              "g",
              300 + (second + cup) % 100 * 0.01));
      if ((cup + second) % STATE_EVERY_S == 0) {
        publish(topics.cup("C" + cup), Spoken.cup("C" + cup, now, 300), true);
      }
    }
    publish(topics.readings(), pack, false);
    readings.addAndGet(cups);
    for (int cup = 0; cup < cups; cup++) {
      if ((cup + second) % DOSE_EVERY_S == 0) {
        long seq = events.incrementAndGet();
        saidNs.put(seq, System.nanoTime());
        publish(topics.events(), Spoken.dose(EPOCH, seq, "C" + cup, now), false);
      }
    }
    second++;
  }

  private void publish(String topic, Object said, boolean retained) throws Exception {
    client.publish(
        topic, new MqttMessage(Json.MAPPER.writeValueAsBytes(said), 1, retained, null));
  }

  /** Readings said. */
  long readings() {
    return readings.get();
  }

  /** Events said that no host has kept yet. */
  long unkept() {
    return events.get() - kept.get();
  }

  /** From saying an event to hearing that it is kept, of all since the last call. */
  List<Double> takeLatenciesMs() {
    if (failed.get() != null) {
      throw new IllegalStateException("bench " + name + " fell silent", failed.get());
    }
    synchronized (latenciesMs) {
      List<Double> taken = List.copyOf(latenciesMs);
      latenciesMs.clear();
      return taken;
    }
  }

  private void heard(Kept mark) {
    long now = System.nanoTime();
    synchronized (latenciesMs) {
      for (long seq = kept.get() + 1; seq <= mark.seq(); seq++) {
        latenciesMs.add((now - saidNs.remove(seq)) / 1e6);
      }
      kept.set(Math.max(kept.get(), mark.seq()));
    }
  }

  @Override
  public void close() throws Exception {
    clock.shutdownNow();
    if (client.isConnected()) {
      client.disconnect().waitForCompletion();
    }
    client.close();
  }

  private final class Listening implements MqttCallback {
    @Override
    public void messageArrived(String topic, MqttMessage message) throws Exception {
      heard(Json.MAPPER.readValue(message.getPayload(), Kept.class));
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {
      failed.compareAndSet(null, response.getException());
    }

    @Override
    public void mqttErrorOccurred(MqttException error) {
      failed.compareAndSet(null, error);
    }

    @Override
    public void deliveryComplete(IMqttToken token) {}

    @Override
    public void connectComplete(boolean again, String uri) {}

    @Override
    public void authPacketArrived(int reason, MqttProperties properties) {}
  }
}
