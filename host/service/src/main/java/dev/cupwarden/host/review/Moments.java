package dev.cupwarden.host.review;

import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Curve;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** Readings of a bench moment by moment, a day in memory at a time. */
final class Moments {
  private static final Duration AT_ONCE = Duration.ofDays(1);

  /** Takes what was read at one time: values by the names of their series. */
  @FunctionalInterface
  interface Taker {
    void take(Instant at, SortedMap<String, Double> values) throws IOException;
  }

  private Moments() {}

  static void each(Store store, Asked asked, Taker taker) throws IOException {
    List<String> names = store.readings().names(asked.bench());
    Instant last =
        names.stream()
            .flatMap(name -> store.readings().newest(asked.bench(), name).stream())
            .max(Instant::compareTo)
            .orElse(Instant.EPOCH);
    Instant first =
        names.stream()
            .flatMap(name -> store.readings().oldest(asked.bench(), name).stream())
            .min(Instant::compareTo)
            .orElse(Instant.EPOCH);
    Instant end = asked.to().isBefore(last) ? asked.to() : last.plusMillis(1);
    Instant from = asked.from().isBefore(first) ? first : asked.from();
    while (from.isBefore(end)) {
      Instant to = from.plus(AT_ONCE).isBefore(end) ? from.plus(AT_ONCE) : end;
      for (var moment : between(store, asked.bench(), names, from, to).entrySet()) {
        taker.take(Instant.ofEpochMilli(moment.getKey()), moment.getValue());
      }
      from = to;
    }
  }

  private static SortedMap<Long, SortedMap<String, Double>> between(
      Store store, String bench, List<String> names, Instant from, Instant to) {
    SortedMap<Long, SortedMap<String, Double>> moments = new TreeMap<>();
    for (String name : names) {
      Curve curve = store.readings().between(bench, name, from, to);
      for (int index = 0; index < curve.size(); index++) {
        moments
            .computeIfAbsent(curve.atMs(index), at -> new TreeMap<>())
            .put(name, curve.value(index));
      }
    }
    return moments;
  }
}
