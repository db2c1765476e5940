package dev.cupwarden.host.watch;

import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * The beats of each bench, as this host has heard them: in memory, so that a store that takes
 * nothing hides no life and feigns none. Times are the host's own.
 */
public final class Heartbeats {
  /** Processes of one bench that are told apart; a crash loop brings a new one each minute. */
  private static final int MOST_INSTANCES = 64;

  private static final int MOST_BENCHES = 1_000;

  private final Map<String, Bench> benches = new HashMap<>();

  /**
   * What its beats say of a bench.
   *
   * @param last the newest beat
   * @param heard when that was
   * @param moved when, at the latest, the last tick was finished that is known of; at first as long
   *     ago as the loop has been at what it is at
   * @param progressed when a tick was last seen to be finished while this host listened
   * @param turns when a process was last heard after another of the same name had been heard in
   *     between
   */
  public record Life(
      Beat last,
      Instant heard,
      Instant moved,
      Optional<Instant> progressed,
      Optional<Instant> turns) {}

  private static final class Bench {
    private Life life;
    private final Map<String, Beat> instances =
        new LinkedHashMap<>(16, 0.75f, true) {
          private static final long serialVersionUID = 1L;

          @Override
          protected boolean removeEldestEntry(Map.Entry<String, Beat> eldest) {
            return size() > MOST_INSTANCES;
          }
        };
  }

  /** Takes a beat that was said just now; what is told a second time changes nothing. */
  public synchronized void hear(String name, Beat beat, Instant now) {
    if (!benches.containsKey(name) && benches.size() >= MOST_BENCHES) {
      return;
    }
    Bench bench = benches.computeIfAbsent(name, each -> new Bench());
    Beat before = bench.instances.get(beat.instance());
    if (before != null && !beat.at().isAfter(before.at())) {
      return;
    }
    bench.life = next(bench.life, before, beat, now);
    bench.instances.put(beat.instance(), beat);
  }

  private static Life next(Life life, Beat before, Beat beat, Instant now) {
    Instant atItSince = now.minus(Elapsed.ofSeconds(beat.forS()));
    if (life == null) {
      return new Life(beat, now, atItSince, Optional.empty(), Optional.empty());
    }
    boolean isMoved = beat.tick() > (before == null ? 0 : before.tick());
    boolean takesTurns = before != null && !beat.instance().equals(life.last().instance());
    return new Life(
        beat,
        now,
        isMoved && atItSince.isAfter(life.moved()) ? atItSince : life.moved(),
        isMoved ? Optional.of(now) : life.progressed(),
        takesTurns ? Optional.of(now) : life.turns());
  }

  /** What is known of a bench, if it has beaten since this host listens. */
  public synchronized Optional<Life> of(String bench) {
    return Optional.ofNullable(benches.get(bench)).map(each -> each.life);
  }

  /** Every bench that has beaten since. */
  public synchronized Set<String> benches() {
    return new TreeSet<>(benches.keySet());
  }
}
