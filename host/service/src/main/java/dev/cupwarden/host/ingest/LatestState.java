package dev.cupwarden.host.ingest;

import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Setups.CupRow;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jdbi.v3.core.Handle;

/**
 * What benches said of how they are now, gathered over a batch: the newest word of each, written at
 * the end in the order of the keys. Hosts that share a store then hold the rows that both write for
 * as short as can be, and take them in one order, so that none waits for another in a circle.
 */
final class LatestState {
  private record CupKey(String bench, String cup) {}

  /**
   * The last of a cup.
   *
   * @param gone whether it was off the bench in between, or is now
   * @param status none where it is off the bench now
   */
  private record CupWord(boolean gone, Optional<BenchMessage.Cup> status) {}

  private final SortedSet<String> benches = new TreeSet<>();
  private final SortedMap<CupKey, CupWord> cups =
      new TreeMap<>(Comparator.comparing(CupKey::bench).thenComparing(CupKey::cup));
  private final SortedMap<String, BenchMessage.Bench> statuses = new TreeMap<>();
  private final SortedMap<String, BenchMessage.SetUp> setUps = new TreeMap<>();
  private final SortedMap<String, List<BenchMessage.Here>> presences = new TreeMap<>();

  /** The bench is known from now on. */
  void touch(String bench) {
    benches.add(bench);
  }

  void cup(BenchMessage.Cup said) {
    touch(said.bench());
    cups.merge(
        new CupKey(said.bench(), said.status().cup()),
        new CupWord(false, Optional.of(said)),
        LatestState::newer);
  }

  private static CupWord newer(CupWord before, CupWord next) {
    boolean late =
        before.status().isPresent()
            && at(next).isBefore(at(before)); // A late word changes nothing.
    return late ? before : new CupWord(before.gone(), next.status());
  }

  private static Instant at(CupWord word) {
    return word.status().orElseThrow().status().at();
  }

  void cupGone(String bench, String cup) {
    cups.put(new CupKey(bench, cup), new CupWord(true, Optional.empty()));
  }

  void bench(BenchMessage.Bench said) {
    touch(said.bench());
    statuses.merge(
        said.bench(),
        said,
        (before, next) -> next.status().at().isBefore(before.status().at()) ? before : next);
  }

  void setUp(BenchMessage.SetUp said) {
    touch(said.bench());
    setUps.merge(
        said.bench(),
        said,
        (before, next) -> next.setup().at().isBefore(before.setup().at()) ? before : next);
  }

  /** Each counts: that a controller went and came again is what a watch asks for. */
  void here(BenchMessage.Here said) {
    touch(said.bench());
    presences.computeIfAbsent(said.bench(), bench -> new ArrayList<>()).add(said);
  }

  /**
   * Writes it all.
   *
   * @param now by the host's clock
   * @return the cups that a set-up took off the bench
   */
  List<BenchMessage.CupGone> write(Store store, Handle handle, Instant now) {
    benches.forEach(bench -> store.benches().touch(handle, bench));
    List<BenchMessage.CupGone> gone = new ArrayList<>();
    setUps
        .values()
        .forEach(
            said ->
                put(store, handle, said)
                    .forEach(cup -> gone.add(new BenchMessage.CupGone(said.bench(), cup))));
    gone.forEach(each -> cupGone(each.bench(), each.cup()));
    cups.forEach((key, word) -> write(store, handle, key, word));
    statuses
        .values()
        .forEach(
            said ->
                store
                    .benches()
                    .status(handle, said.bench(), said.status().at(), Json.written(said.status())));
    presences.values().stream()
        .flatMap(List::stream)
        .forEach(
            said ->
                store
                    .benches()
                    .presence(
                        handle,
                        said.bench(),
                        said.presence().state(),
                        said.presence().since(),
                        now));
    return gone;
  }

  private static void write(Store store, Handle handle, CupKey key, CupWord word) {
    if (word.gone()) {
      store.benches().removeCup(handle, key.bench(), key.cup());
    }
    word.status()
        .map(BenchMessage.Cup::status)
        .ifPresent(
            status ->
                store
                    .benches()
                    .cup(handle, key.bench(), key.cup(), status.at(), Json.written(status)));
  }

  private static SortedSet<String> put(Store store, Handle handle, BenchMessage.SetUp said) {
    Map<String, CupRow> rows = new TreeMap<>();
    said.setup()
        .cups()
        .forEach(
            (name, cup) ->
                rows.put(
                    name,
                    new CupRow(
                        cup.plant(),
                        cup.struck().map(LocalDate::toString).orElse(""),
                        Json.written(cup))));
    return new TreeSet<>(
        store
            .setups()
            .put(handle, said.bench(), said.setup().at(), Json.written(said.setup()), rows));
  }
}
