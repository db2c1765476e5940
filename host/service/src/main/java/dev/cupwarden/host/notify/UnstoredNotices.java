package dev.cupwarden.host.notify;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.host.store.Notices.NoticeRow;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What people are told while the store takes nothing, in memory and bounded: notices that were
 * never stored, and what became of those that were.
 */
final class UnstoredNotices {
  /** More is not read by anybody, and a bench gone mad must not fill the memory. */
  static final int MOST = 200;

  private static final int MOST_REMEMBERED = 2_000;
  private static final Logger LOG = LoggerFactory.getLogger(UnstoredNotices.class);

  private final List<NoticeRow> waiting = new ArrayList<>();

  /** Notices that went out on every way, so that they do not go once more when they are stored. */
  private final Set<String> told = new LinkedHashSet<>();

  /** Each with the time it was told at: what is told again is told again. */
  private final Set<String> tellings = new LinkedHashSet<>();

  /** Notices of the store that are under way from here, and how often that was tried. */
  private final Map<String, Try> tries = new HashMap<>();

  /** Rows of the store that were sent and could not be settled there, by their message. */
  private final Map<String, List<NoticeRow>> sent = new LinkedHashMap<>();

  private record Try(int count, Instant next) {}

  static String name(String bench, AlertNotice notice) {
    return String.join(
        "\n",
        bench,
        notice.code(),
        String.valueOf(notice.cup()),
        notice.state(),
        notice.since().toString());
  }

  /**
   * Takes a notice for each way; a second time it changes nothing, nor does one too many.
   *
   * @param at of this telling
   */
  synchronized void add(String name, Instant at, Collection<NoticeRow> rows) {
    String telling = name + "\n" + at;
    if (tellings.contains(telling)) {
      return;
    }
    if (waiting.size() + rows.size() > MOST) {
      LOG.warn("More alerts than a host tells from memory: {}", name.replace('\n', ' '));
      return;
    }
    remember(tellings, telling);
    remember(told, name);
    waiting.addAll(rows);
  }

  private static void remember(Set<String> names, String name) {
    names.add(name);
    if (names.size() > MOST_REMEMBERED) {
      Iterator<String> oldest = names.iterator();
      oldest.next();
      oldest.remove();
    }
  }

  /** Whether it goes out, or went out, from memory: then it is not told by the store as well. */
  synchronized boolean has(String name) {
    return told.contains(name);
  }

  /** What is due of both, oldest first. */
  synchronized List<NoticeRow> due(List<NoticeRow> stored, Instant now) {
    List<NoticeRow> due = new ArrayList<>();
    Set<String> gone = new LinkedHashSet<>();
    sent.values().forEach(rows -> rows.forEach(row -> gone.add(row.id())));
    for (NoticeRow row : stored) {
      if (!gone.contains(row.id())) {
        due.add(row);
      }
    }
    due.addAll(waiting);
    due.removeIf(
        row ->
            now.isBefore(row.due())
                || (tries.containsKey(row.id()) && now.isBefore(tries.get(row.id()).next())));
    return due;
  }

  /** Whether a row is of here, and the store has never had it. */
  synchronized boolean isOfHere(NoticeRow row) {
    return waiting.contains(row);
  }

  /** How often it was tried. */
  synchronized int tried(NoticeRow row) {
    return tries.containsKey(row.id()) ? tries.get(row.id()).count() : row.tries();
  }

  /** It is tried now for the so-manieth time, and not again before then. */
  synchronized void next(List<NoticeRow> rows, int count, Instant next) {
    rows.forEach(row -> tries.put(row.id(), new Try(count + 1, next)));
  }

  /** They have arrived, or are given up. */
  synchronized void done(List<NoticeRow> rows) {
    rows.forEach(row -> tries.remove(row.id()));
    List<NoticeRow> ofTheStore = new ArrayList<>(rows);
    ofTheStore.removeIf(waiting::contains);
    waiting.removeAll(rows);
    if (!ofTheStore.isEmpty()) {
      NoticeRow first = ofTheStore.get(0);
      sent.put(first.message().orElseGet(() -> UUID.randomUUID().toString()), ofTheStore);
    }
  }

  /** What was sent of the store's, by message, to be settled there; it is forgotten here. */
  synchronized Map<String, List<NoticeRow>> toSettle() {
    Map<String, List<NoticeRow>> all = new LinkedHashMap<>(sent);
    sent.clear();
    return all;
  }

  /** What was never stored and has not gone out yet, to be stored now; it is forgotten here. */
  synchronized List<NoticeRow> toStore() {
    List<NoticeRow> all = List.copyOf(waiting);
    waiting.clear();
    tries.clear();
    return all;
  }
}
