package dev.cupwarden.app.link;

import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Topics;
import java.io.IOException;
import java.time.Instant;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What comes in: orders go into the journal or are refused; a host's word empties the outbox. */
final class Incoming implements Session.Incoming {
  private static final Logger log = LoggerFactory.getLogger(Incoming.class);

  private final Topics topics;
  private final Outbox outbox;
  private final Supplier<Instant> now;
  private final Sender sender;
  private final NameConflictDetector conflicts;
  private final Runnable wake;
  private final OrderIntake intake = new OrderIntake();

  Incoming(
      Topics topics,
      Outbox outbox,
      Supplier<Instant> now,
      Sender sender,
      NameConflictDetector conflicts,
      Runnable wake) {
    this.topics = topics;
    this.outbox = outbox;
    this.now = now;
    this.sender = sender;
    this.conflicts = conflicts;
    this.wake = wake;
  }

  @Override
  public void message(String topic, byte[] payload, boolean retained) {
    if (topic.equals(topics.kept())) {
      kept(payload);
    } else if (topic.equals(topics.beat())) {
      conflicts.beat(payload, System.nanoTime());
      return;
    } else if (topic.equals(topics.presence())) {
      conflicts.presence(payload, System.nanoTime());
      return;
    } else if (topic.equals(topics.orders()) && payload.length > 0) {
      // An empty one is how a retained message is taken off a broker.
      order(payload, retained);
    }
    wake.run();
  }

  @Override
  public void takenOver() {
    conflicts.takenOver(System.nanoTime());
  }

  private void kept(byte[] payload) {
    try {
      Kept kept = Json.MAPPER.readValue(payload, Kept.class);
      if (kept == null || kept.epoch() == null) {
        log.warn("MQTT: a message on {} names no epoch", topics.kept());
        return;
      }
      switch (outbox.kept(kept)) {
        case MOVED -> sender.keptMoved();
        case STANDS -> log.debug("MQTT: a host's mark stands at {}", kept.seq());
        case NEW_EPOCH ->
            log.warn(
                "journal: a host has kept event {} that this journal never numbered (was the file"
                    + " put back from a copy?); a new epoch begins",
                kept.seq());
      }
    } catch (IOException e) {
      log.warn("MQTT: a message on {} cannot be read: {}", topics.kept(), e.getMessage());
    } catch (JournalException e) {
      log.warn("{}", e.getMessage());
    }
  }

  private void order(byte[] payload, boolean retained) {
    Instant received = now.get();
    OrderIntake.Verdict verdict = intake.judge(payload, retained, received);
    if (verdict instanceof OrderIntake.Refused refused) {
      sender.receipt(refused.receipt());
    } else if (verdict instanceof OrderIntake.Accepted order) {
      receive(order, received);
    }
  }

  private void receive(OrderIntake.Accepted order, Instant received) {
    try {
      Outbox.Reception reception =
          outbox.receive(order.id(), received, order.expires(), order.body(), order.stopsWater());
      switch (reception) {
        case FULL ->
            sender.receipt(Receipt.refused(order.id(), "too many orders wait for the next tick"));
        case NEW -> sender.receipt(Receipt.taken(order.id()));
        case REPEATED ->
            sender.receipt(
                Receipt.refused(order.id(), "repeated: an order with this id was taken before"));
        case SAME_AGAIN -> log.debug("MQTT: order {} came a second time", order.id());
      }
    } catch (JournalException e) {
      log.warn("{}", e.getMessage());
      sender.receipt(
          Receipt.refused(order.id(), "the journal cannot hold an order now; nothing was changed"));
    }
  }
}
