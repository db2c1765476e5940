package dev.cupwarden.app.loop;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.TankState;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BiFunction;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Merges a kept state with a bench file that may have been edited since: a three-way merge of the
 * file before, the file now and what orders have changed meanwhile. What the file says anew of a
 * cup or tank wins; what it says as before undoes no order.
 */
final class BenchFileMerge {
  private static final Logger log = LoggerFactory.getLogger(BenchFileMerge.class);

  private final Bench now;
  private final BenchState fresh;
  private final List<String> lost = new ArrayList<>();
  private Renaming renaming = new Renaming(Collections.emptySortedMap(), List.of());

  /**
   * @param fresh a state of the bench of which nothing has been seen
   */
  BenchFileMerge(Bench now, BenchState fresh) {
    this.now = now;
    this.fresh = fresh;
  }

  BenchState of(BenchState kept, Optional<String> textBefore) {
    Optional<Bench> before = textBefore.flatMap(BenchFileMerge::read);
    NavigableMap<String, CupState> cups = new TreeMap<>(kept.cups());
    NavigableMap<String, TankState> tanks = new TreeMap<>(kept.tanks());
    if (before.isPresent()) {
      renaming = Renaming.between(before.get(), now);
      renaming
          .names()
          .forEach(
              (name, was) -> {
                CupState state = cups.remove(was);
                if (state != null) {
                  log.info("The bench file calls {} now {}", was, name);
                  cups.put(name, state.under(named(before.get().cups().get(was), name, state)));
                }
              });
      edit(
          cups,
          before.get().cups(),
          now.cups(),
          (name, state) -> edited(before.get(), name, state));
      edit(tanks, before.get().tanks(), now.tanks(), (name, state) -> fresh.tanks().get(name));
    }
    freeWhatTheFileTook(cups);
    // Whatever happened to the file, a state never misses a tank that the bench has.
    fresh.tanks().forEach(tanks::putIfAbsent);
    tanks.keySet().retainAll(now.tanks().keySet());
    AirState air = kept.air();
    if (now.board().isPresent()) {
      // What a sensor said that is no longer there must not hold anything back for good.
      BoardWiring board = now.board().get();
      air =
          air.only(
              board.air().isPresent(),
              board.more().root().isPresent(),
              board.more().outdoor().isPresent());
      tanks.replaceAll(
          (name, tank) -> board.more().gauges().containsKey(name) ? tank : tank.unread());
    }
    return kept.over(cups, air, tanks);
  }

  /** A part of the board that the file gives to one of its cups is no longer an added cup's. */
  private void freeWhatTheFileTook(SortedMap<String, CupState> cups) {
    for (Cup owner : now.cups().values()) {
      if (!cups.containsKey(owner.name())) {
        continue;
      }
      cups.replaceAll(
          (name, kept) -> {
            if (now.cups().containsKey(name)) {
              return kept;
            }
            Cup left = kept.setup().without(owner.wiring());
            if (left.equals(kept.setup())) {
              return kept;
            }
            lost.add(
                "%s, which an order had added, has lost its place to %s, as the bench file says."
                    .formatted(name, owner.name()));
            return kept.under(left);
          });
    }
  }

  /** What the file before would have said of it under its new name. */
  private Cup named(Cup was, String name, CupState kept) {
    return now.cups().get(name).over(was, kept.setup());
  }

  /** Sentences for a person about cups that may have been renamed, or have lost their place. */
  List<String> doubts() {
    return Stream.concat(renaming.doubts().stream(), lost.stream()).toList();
  }

  private static <S, T> void edit(
      SortedMap<String, S> states,
      SortedMap<String, T> before,
      SortedMap<String, T> now,
      BiFunction<String, S, S> edited) {
    for (String name : before.keySet()) {
      if (!now.containsKey(name) && states.remove(name) != null) {
        log.info("The bench file no longer has {}", name);
      }
    }
    now.forEach(
        (name, setup) -> {
          if (!setup.equals(before.get(name))) {
            log.info("The bench file says anew what {} is", name);
            states.put(name, edited.apply(name, states.get(name)));
          }
        });
  }

  private CupState edited(Bench before, String name, CupState kept) {
    Cup was = before.cups().get(name);
    if (kept == null) {
      return fresh.cups().get(name);
    }
    if (was == null) {
      // An order had added it, and now the file has it, too; or the file calls it otherwise now.
      return renaming.names().containsKey(name) ? kept : kept.under(now.cups().get(name));
    }
    return kept.under(now.cups().get(name).over(was, kept.setup()));
  }

  private static Optional<Bench> read(String text) {
    try {
      return Optional.of(BenchFile.read("the bench before", text));
    } catch (SetupException e) {
      log.warn("The bench file of the last run cannot be read by this program: {}", e.getMessage());
      return Optional.empty();
    }
  }
}
