package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.longrun.SideBySide;
import dev.cupwarden.core.longrun.TestReport;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.faults.FaultLevel;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Winters of 24 cups, in either world, with every fault and a person who goes away for two to four
 * weeks, on tanks that last so long or not: a few in a build, a thousand cup-years and more with
 * {@code -Plong}. {@code -Drehearsal.from=N} begins at another seed.
 */
@Tag("long")
class NoCupDriesUntoldTest {
  private static final int CUPS = 24;
  private static final int DAYS = 120;
  private static final double DAYS_A_YEAR = 365.25;
  private static final String SECTION = "No cup dries or drowns untold";

  @ParameterizedTest
  @EnumSource(World.class)
  void noCupDriesOrDrownsWhileNobodyIsTold(World world) throws Exception {
    long begun = System.nanoTime();
    double cupYears = Double.parseDouble(System.getProperty("untold.cupyears", "15"));
    long first = Long.getLong("rehearsal.from", 1);
    long last = first - 1 + (long) Math.ceil(cupYears * DAYS_A_YEAR / CUPS / DAYS);
    SortedMap<Long, List<String>> untold = Collections.synchronizedSortedMap(new TreeMap<>());
    AtomicLong next = new AtomicLong(first);
    SideBySide.onEveryCore(
        () -> {
          for (long seed = next.getAndIncrement(); seed <= last; seed = next.getAndIncrement()) {
            List<String> found = winter(world, seed);
            if (!found.isEmpty()) {
              untold.put(seed, found);
            }
          }
        });
    assertEquals(new TreeMap<>(), untold, "by seed");
    TestReport.put(
        world == World.FIRST ? SECTION : SECTION + ", in the second world",
        Duration.ofNanos(System.nanoTime() - begun),
        """
        seeds %,d to %,d, each %d cups for %d days with all faults, a person away for two to four weeks, and tanks that \
        last or do not: %,.0f years on the bench. No cup was more than 0.06 of its water past its dry line for six hours, nor \
        past its wet line for sixty, without an open alert of it or of its bench that was told within the last day.
        """
            .formatted(first, last, CUPS, DAYS, (last - first + 1) * CUPS * DAYS / DAYS_A_YEAR));
  }

  private static List<String> winter(World world, long seed) throws Exception {
    SplittableRandom draws = new SplittableRandom(seed);
    int tripDays = 14 + draws.nextInt(15);
    double tankPart = draws.nextBoolean() ? 1 : 0.1 + 0.4 * draws.nextDouble();
    Bench bench = UsualBench.of(CUPS, tankPart);
    List<String> untold = new ArrayList<>();
    new Rehearsal(bench, DAYS, FaultLevel.ALL, tripDays)
        .in(world)
        .run((scene, stand, policySeed) -> new UntoldCups(scene, stand, untold), seed, day -> {});
    return untold;
  }
}
