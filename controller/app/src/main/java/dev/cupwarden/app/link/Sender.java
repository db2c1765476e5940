package dev.cupwarden.app.link;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Topics;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What goes out, and how far it got on the connection that stands now. */
final class Sender {
  private static final int BATCH = 200;
  private static final int MOST_RECEIPTS = 500;

  private static final Logger log = LoggerFactory.getLogger(Sender.class);

  /**
   * A pack that the broker has taken stays this long: if broker or host fails before it is stored,
   * it is told again with the events that were under way with it.
   */
  static final Duration SETTLING = Duration.ofMinutes(3);

  private record AcknowledgedPack(long tick, long atNanos) {}

  private final Topics topics;
  private final Outbox outbox;
  private final Duration settling;
  private final Map<String, byte[]> latest = new LinkedHashMap<>();
  private final Set<String> unsent = new HashSet<>();
  private final Queue<Receipt> receipts = new ArrayDeque<>();
  private final Queue<AcknowledgedPack> acknowledgedPacks = new ConcurrentLinkedQueue<>();
  private String sentEpoch = "";
  private long sentSeq;
  private long lastPackSent;
  private final ResendSchedule resend = new ResendSchedule();
  private final NoSubscriberBackoff noSubscriber = new NoSubscriberBackoff();

  Sender(Topics topics, Outbox outbox, Duration settling) {
    this.topics = topics;
    this.outbox = outbox;
    this.settling = settling;
  }

  /** Keeps the newest state for a topic; an older one that was not sent is forgotten. */
  synchronized void latest(String topic, byte[] payload) {
    latest.put(topic, payload);
    unsent.add(topic);
  }

  /** A receipt that no tick has made; the oldest go when nobody takes them. */
  synchronized void receipt(Receipt receipt) {
    if (receipts.size() == MOST_RECEIPTS) {
      receipts.remove();
    }
    receipts.add(receipt);
  }

  /** A new connection: everything unkept, unacknowledged and retained is told again. */
  synchronized void beginAgain() {
    sentSeq = 0;
    lastPackSent = 0;
    acknowledgedPacks.clear();
    noSubscriber.unknown();
    unsent.addAll(latest.keySet());
    resend.toldAll(System.nanoTime());
  }

  /** A host is there and has kept more than before: no need to tell it again soon. */
  synchronized void keptMoved() {
    resend.keptMoved(System.nanoTime());
  }

  /** Sends what there is; returns when all is sent or the connection is lost. */
  void sendAll(Session session) throws InterruptedException, MqttException, JournalException {
    sendReceipts(session);
    sendLatest(session);
    if (noSubscriber.takeMissed()) {
      sentSeq = 0;
      lastPackSent = 0;
    }
    if (noSubscriber.mayBeThere(System.nanoTime())) {
      tellAgainWhenDue();
      sendEvents(session);
      sendPacks(session);
    }
    letAcknowledgedGo();
  }

  private void answered(boolean given) {
    if (given) {
      noSubscriber.heard();
    } else {
      noSubscriber.nobody(System.nanoTime());
    }
  }

  private void packAnswered(long tick, boolean given) {
    answered(given);
    if (given) {
      acknowledgedPacks.add(new AcknowledgedPack(tick, System.nanoTime()));
    }
  }

  private void sendReceipts(Session session) throws InterruptedException, MqttException {
    for (Receipt receipt = firstReceipt(); receipt != null; receipt = firstReceipt()) {
      if (!sendReceipt(session, receipt)) {
        return;
      }
      dropFirstReceipt();
    }
  }

  private synchronized Receipt firstReceipt() {
    return receipts.peek();
  }

  private synchronized void dropFirstReceipt() {
    receipts.poll();
  }

  private boolean sendReceipt(Session session, Object receipt)
      throws InterruptedException, MqttException {
    return session.send(
        topics.receipts(), ControllerMqttLink.payload(receipt), PublishRule.RECEIPT, given -> {});
  }

  private void sendLatest(Session session) throws InterruptedException, MqttException {
    for (Map.Entry<String, byte[]> status : takeUnsent().entrySet()) {
      if (!session.send(status.getKey(), status.getValue(), PublishRule.STATUS, given -> {})) {
        return;
      }
    }
  }

  private synchronized Map<String, byte[]> takeUnsent() {
    Map<String, byte[]> due = new LinkedHashMap<>();
    for (Map.Entry<String, byte[]> status : latest.entrySet()) {
      if (unsent.contains(status.getKey())) {
        due.put(status.getKey(), status.getValue());
      }
    }
    unsent.clear();
    return due;
  }

  private synchronized void tellAgainWhenDue() throws JournalException {
    if (!resend.isDue(System.nanoTime())) {
      return;
    }
    if (sentSeq > 0 && outbox.anyUnkept()) {
      log.warn(
          "MQTT: no host has kept more of what was told for {} s; telling it again",
          resend.interval().toSeconds());
      sentSeq = 0;
      lastPackSent = 0;
      acknowledgedPacks.clear();
      resend.again(System.nanoTime());
    } else {
      resend.toldAll(System.nanoTime());
    }
  }

  private void sendEvents(Session session)
      throws InterruptedException, MqttException, JournalException {
    List<Event> batch = outbox.eventsAfter(sentEpoch, sentSeq, BATCH);
    while (!batch.isEmpty()) {
      for (Event event : batch) {
        if (!noSubscriber.mayBeThere(System.nanoTime()) || !sendEvent(session, event)) {
          return;
        }
        sentEpoch = event.epoch();
        sentSeq = event.seq();
      }
      batch = outbox.eventsAfter(sentEpoch, sentSeq, BATCH);
    }
  }

  private boolean sendEvent(Session session, Event event)
      throws InterruptedException, MqttException {
    JsonNode data = event.data();
    if (event.kind().equals("receipt") && !sendReceipt(session, data)) {
      return false;
    }
    return session.send(
        topics.events(), ControllerMqttLink.payload(event), PublishRule.EVENT, this::answered);
  }

  private void sendPacks(Session session)
      throws InterruptedException, MqttException, JournalException {
    List<Outbox.Pack> batch;
    do {
      letAcknowledgedGo();
      batch = outbox.packsAfter(lastPackSent, BATCH);
      for (Outbox.Pack pack : batch) {
        if (!noSubscriber.mayBeThere(System.nanoTime())) {
          return;
        }
        byte[] senml = pack.senml().getBytes(StandardCharsets.UTF_8);
        if (!session.send(
            topics.readings(),
            senml,
            PublishRule.READINGS,
            given -> packAnswered(pack.tick(), given))) {
          return;
        }
        lastPackSent = pack.tick();
      }
    } while (!batch.isEmpty());
  }

  private void letAcknowledgedGo() throws JournalException {
    List<Long> ticks = new ArrayList<>();
    long settledNanos = System.nanoTime() - settling.toNanos();
    for (AcknowledgedPack pack = acknowledgedPacks.peek();
        pack != null && pack.atNanos() - settledNanos <= 0;
        pack = acknowledgedPacks.peek()) {
      ticks.add(pack.tick());
      acknowledgedPacks.remove();
    }
    if (!ticks.isEmpty()) {
      outbox.sent(ticks);
    }
  }
}
