package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.longrun.FolderInMemory;
import dev.cupwarden.core.longrun.Fuzz;
import dev.cupwarden.core.longrun.Slips;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A journal's files cut short, its state's bytes changed. */
@Tag("long")
class JournalFuzzTest {
  private static final Instant START = Instant.parse("2027-01-10T08:00:00Z");
  private static final int TICKS = 40;
  private static final List<String> FILES = List.of("", "-wal", ".tick");

  @TempDir(factory = FolderInMemory.class)
  Path folder;

  private BenchState last;
  private KeptState.Raw kept;

  @BeforeEach
  void journalAsAPowerCutLeavesIt() throws Exception {
    Path file = folder.resolve("journal.db");
    Bench bench = BackRoom.bench();
    Tick tick = new Tick(bench);
    last = tick.fresh();
    try (Journal journal = Journal.open(file)) {
      journal.start(new Journal.Start(START, BackRoom.text(), last, "test"));
      for (int i = 0; i < TICKS; i++) {
        Instant at = START.plusSeconds(300L * i);
        last = tick.step(last, seen(bench, at, i)).state();
        journal.commit(
            new TickEntry(at, "{}", last, Optional.empty(), List.of(), List.of(), List.of()));
      }
      for (String end : FILES) {
        Files.copy(folder.resolve("journal.db" + end), folder.resolve("whole" + end));
      }
      try (Sql sql = new Sql(JournalFile.connect(file))) {
        kept = new KeptState(sql).read().orElseThrow();
      }
    }
    assertEquals(last, kept.restored().state());
  }

  private static Observation seen(Bench bench, Instant at, int tick) {
    TreeMap<String, Double> massG = new TreeMap<>();
    bench.cups().keySet().forEach(cup -> massG.put(cup, 290 - 0.2 * tick));
    return new Observation(
        at,
        OptionalDouble.of(19.5),
        OptionalDouble.of(60),
        OptionalDouble.of(20),
        OptionalDouble.empty(),
        massG,
        new TreeMap<>(),
        new TreeMap<>(),
        false,
        false,
        false,
        List.of());
  }

  @Test
  void aFileCutShortAnywhereIsFoundOrIsNoLoss() throws Exception {
    Fuzz.of(
        "journal files cut short",
        "each was whole to the last tick, or was found and nothing would be watered on it.",
        random -> {
          String cut = FILES.get(random.nextInt(FILES.size()));
          for (String end : FILES) {
            Path from = folder.resolve("whole" + end);
            Path to = folder.resolve("tried.db" + end);
            Files.copy(from, to, StandardCopyOption.REPLACE_EXISTING);
            if (end.equals(cut)) {
              byte[] whole = Files.readAllBytes(from);
              Files.write(to, Arrays.copyOf(whole, random.nextInt(whole.length + 1)));
            }
          }
          Files.deleteIfExists(folder.resolve("tried.db-shm"));
          try (OpenJournal open = OpenJournal.orStandIn(folder.resolve("tried.db"))) {
            if (open.trouble().isEmpty()) {
              Journal.Restored restored = open.journal().restored().orElseThrow();
              assertEquals(TICKS, restored.tick());
              assertEquals(last, restored.state());
            }
          }
        });
  }

  @Test
  void aStateWithSlipsIsReadOrRefused() throws Exception {
    Fuzz.of(
        "bytes of the kept state",
        "each gave a state or was told as one that cannot be read.",
        random -> {
          try {
            assertTrue(slipped(random).restored().state().cups().size() <= kept.cups().size());
          } catch (JournalException told) {
            assertTrue(told.getMessage().length() > 10, told.getMessage());
          }
        });
  }

  /** As if written before there were checksums: what reads it must cope by itself. */
  private KeptState.Raw slipped(SplittableRandom random) {
    Slips slips = new Slips(random);
    TreeMap<String, KeptState.Row> cups = new TreeMap<>(kept.cups());
    KeptState.Row bench = new KeptState.Row(kept.bench().body(), null);
    if (random.nextBoolean()) {
      bench = new KeptState.Row(slips.in(kept.bench().body()), null);
    } else {
      String cup = List.copyOf(cups.keySet()).get(random.nextInt(cups.size()));
      cups.put(cup, new KeptState.Row(slips.in(cups.get(cup).body()), null));
    }
    return new KeptState.Raw(kept.tick(), kept.at(), bench, cups);
  }
}
