package dev.cupwarden.app.link;

import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Whether another controller goes by the same name. The two then take the connection from each
 * other in turn. A broker may say so (MQTT 5, section 3.14.2.1, reason 0x8E) or only hang up; but
 * at each new connection the bench's presence is then the other one's word, and at times its beat
 * is heard. One sign is no proof: what this program said before it was started anew may come late.
 *
 * <p>Times are in nanoseconds of one monotonic clock.
 */
final class NameConflictDetector {
  private static final int SIGNS = 3;
  private static final Duration WITHIN = Duration.ofMinutes(15);

  /** Each connection says two things of its presence, and a third in its will. */
  private static final int OWN_WORDS = 64;

  private static final Logger log = LoggerFactory.getLogger(NameConflictDetector.class);

  private final String instance;
  private final Deque<Long> signs = new ArrayDeque<>();
  private final Deque<String> said = new ArrayDeque<>();
  private final Set<String> known = new HashSet<>();
  private boolean heardOurselves;

  NameConflictDetector(String instance) {
    this.instance = instance;
  }

  /** What this program itself says of its presence; the broker may tell it in its place. */
  synchronized void says(byte[] presence) {
    String word = text(presence);
    said.addLast(word);
    known.add(word);
    if (said.size() > OWN_WORDS) {
      known.remove(said.removeFirst());
    }
  }

  /** The bench's presence was told; what was there before this program came is no rival's. */
  synchronized void presence(byte[] payload, long nowNanos) {
    if (known.contains(text(payload))) {
      heardOurselves = true;
    } else if (heardOurselves) {
      sign("its presence is told by somebody else", nowNanos);
    }
  }

  /** The broker says that it has given the connection to another client of the same name. */
  synchronized void takenOver(long nowNanos) {
    sign("another connection has taken ours over", nowNanos);
  }

  /** A beat of this bench, ours among them. */
  synchronized void beat(byte[] payload, long nowNanos) {
    try {
      if (!instance.equals(Json.MAPPER.readValue(payload, Beat.class).instance())) {
        sign("another beat is heard", nowNanos);
      }
    } catch (IOException | RuntimeException odd) {
      log.debug("MQTT: a beat that cannot be read: {}", odd.getMessage());
    }
  }

  private void sign(String what, long nowNanos) {
    boolean news = !any(nowNanos);
    signs.addLast(nowNanos);
    if (signs.size() > SIGNS) {
      signs.removeFirst();
    }
    if (news) {
      log.warn("MQTT: under our name {}", what);
    }
  }

  /** Whether there is one, as far as was seen lately. */
  synchronized boolean any(long nowNanos) {
    return signs.size() == SIGNS && nowNanos - signs.getFirst() < WITHIN.toNanos();
  }

  private static String text(byte[] payload) {
    return new String(payload, StandardCharsets.UTF_8);
  }
}
