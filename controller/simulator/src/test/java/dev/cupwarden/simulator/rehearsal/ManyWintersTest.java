package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.longrun.SideBySide;
import dev.cupwarden.core.longrun.TestReport;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.faults.FaultLevel;
import java.time.Duration;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Winters of 24 cups with common faults, odd seeds in the first world and even ones in the second:
 * two in a build, and so many with {@code -Plong} that cups lived ten thousand years. {@code
 * -Drehearsal.from=N} begins at another seed; one seed is played again by {@code rehearse --cups 24
 * --days 120 --faults common --seed N}, with {@code --world second} if it is even.
 */
@Tag("long")
class ManyWintersTest {
  private static final int CUPS = 24;
  private static final int DAYS = 120;
  private static final double DAYS_A_YEAR = 365.25;

  private final SortedMap<Long, Figures> figures = new TreeMap<>();
  private final SortedMap<Long, String> broken = new TreeMap<>();

  @Test
  void noLimitIsBrokenAndNothingFedBeforeRootsAreToughened() throws Exception {
    long begun = System.nanoTime();
    double cupYears = Double.parseDouble(System.getProperty("cupyears", "15"));
    long first = Long.getLong("rehearsal.from", 1);
    long last = first - 1 + (long) Math.ceil(cupYears * DAYS_A_YEAR / CUPS / DAYS);
    AtomicLong next = new AtomicLong(first);
    SideBySide.onEveryCore(
        () -> {
          for (long seed = next.getAndIncrement(); seed <= last; seed = next.getAndIncrement()) {
            put(seed, winter(seed));
          }
        });
    assertEquals(Map.of(), broken, "by seed, the first of each");
    assertEquals(last - first + 1, figures.size());
    Duration took = Duration.ofNanos(System.nanoTime() - begun);
    for (World world : World.values()) {
      Figures total =
          figures.entrySet().stream()
              .filter(each -> world(each.getKey()) == world)
              .map(Map.Entry::getValue)
              .reduce(Figures::plus)
              .orElseThrow();
      assertEquals(0, total.violations());
      assertEquals(0, total.fedTooEarly());
      TestReport.put(section(world), took, text(first, last, world, total));
    }
  }

  private static String section(World world) {
    return "Simulated winters" + (world == World.FIRST ? "" : ", second world");
  }

  /** The worlds take turns. */
  private static World world(long seed) {
    return seed % 2 == 0 ? World.SECOND : World.FIRST;
  }

  private static Rehearsal.Outcome winter(long seed) throws SetupException {
    try {
      return new Rehearsal(UsualBench.of(CUPS), DAYS, FaultLevel.COMMON)
          .in(world(seed))
          .run(PolicyKind.CUPWARDEN, seed, day -> {});
    } catch (RuntimeException failed) {
      throw new IllegalStateException("seed " + seed, failed);
    }
  }

  private synchronized void put(long seed, Rehearsal.Outcome outcome) {
    figures.put(seed, outcome.figures());
    if (!outcome.broken().isEmpty()) {
      broken.put(seed, outcome.broken().get(0));
    }
  }

  private static String text(long first, long last, World world, Figures total) {
    StringBuilder text = new StringBuilder();
    text.append(
        """
        the %s seeds from %,d to %,d, each %d cups for %d days with common faults: %,.0f years on the bench in all, \
        %,.0f of them lived by cups. No limit broken, nothing fed before roots were toughened.

        | | |
        |---|---|
        | hours between wet line and dry line | %.2f %% |
        | hours past the wet line, for each cup and week | %.3f |
        | cups lost | %,d of %,d: %,d rotted, %,d dried up |
        | run off, of what was given | %.2f %% |
        | nitrogen given, of what the label allows | %.1f %% |
        | solution's EC at the end, mean of living cups, saltiest cup | %.2f, %.2f mS/cm |
        | passes | %,d |

        | alert | raised | of these false | conditions | of these missed |
        |---|---|---|---|---|
        """
            .formatted(
                world == World.FIRST ? "odd" : "even",
                first,
                last,
                CUPS,
                DAYS,
                total.cups() * DAYS / DAYS_A_YEAR,
                total.cupHours() / 24 / DAYS_A_YEAR,
                100 * total.inBand(),
                total.wetHoursPerCupWeek(),
                total.lost(),
                total.cups(),
                total.lostRotted(),
                total.lostDried(),
                100 * total.leachingFraction(),
                100 * total.nMg() / total.labelNMg(),
                total.ecMsPerCm(),
                total.highestEcMsPerCm(),
                total.passes()));
    total
        .alerts()
        .forEach(
            (code, count) ->
                text.append(
                    "| `%s` | %,d | %,d | %,d | %,d |%n"
                        .formatted(
                            code,
                            count.raised(),
                            count.falseOnes(),
                            count.conditions(),
                            count.missed())));
    return text.toString();
  }
}
