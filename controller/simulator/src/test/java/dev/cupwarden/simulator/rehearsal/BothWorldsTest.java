package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.longrun.SideBySide;
import dev.cupwarden.core.longrun.TestReport;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * The program as it is, in both worlds under the same referee: 24 cups for 120 days, with common
 * and with all faults; one seed of 20 days in a build, and twenty seeds of 120 days with {@code
 * -Plong}. One seed is played again by {@code rehearse --world both --faults all --seed N}.
 */
@Tag("long")
class BothWorldsTest {
  private static final int CUPS = 24;
  private static final int LONG_DAYS = 120;

  /** The estimate is held against the truth every so many ticks: six hours. */
  private static final int LOOK_EVERY = 72;

  private final List<Column> columns = new ArrayList<>();

  /** What came of one world at one level of faults. */
  private static final class Column {
    private final World world;
    private final FaultLevel faults;
    private final List<Double> errors = Collections.synchronizedList(new ArrayList<>());
    private Figures figures;
    private String broken = "";

    Column(World world, FaultLevel faults) {
      this.world = world;
      this.faults = faults;
    }

    synchronized void add(long seed, Rehearsal.Outcome outcome) {
      figures = figures == null ? outcome.figures() : figures.plus(outcome.figures());
      if (!outcome.broken().isEmpty()) {
        broken += "seed " + seed + ": " + outcome.broken().get(0) + "; ";
      }
    }

    double rms() {
      return Math.sqrt(errors.stream().mapToDouble(each -> each * each).average().orElse(0));
    }

    /** What 95 of 100 looks stay below. */
    double most() {
      List<Double> sizes = new ArrayList<>(errors.stream().map(Math::abs).toList());
      Collections.sort(sizes);
      return sizes.isEmpty() ? 0 : sizes.get(sizes.size() * 95 / 100);
    }
  }

  @Test
  void thePresentProgramInBothWorlds() throws Exception {
    long begun = System.nanoTime();
    int seeds = Integer.getInteger("worlds.seeds", 1);
    int days = seeds == 1 ? 20 : LONG_DAYS;
    for (FaultLevel faults : List.of(FaultLevel.COMMON, FaultLevel.ALL)) {
      for (World world : World.values()) {
        columns.add(new Column(world, faults));
      }
    }
    AtomicInteger next = new AtomicInteger();
    SideBySide.onEveryCore(
        () -> {
          for (int i = next.getAndIncrement(); i < 4 * seeds; i = next.getAndIncrement()) {
            winter(columns.get(i % 4), 1 + i / 4, days);
          }
        });
    TestReport.put("Two worlds", Duration.ofNanos(System.nanoTime() - begun), text(seeds, days));
    for (Column column : columns) {
      assertEquals("", column.broken, column.world + ", " + column.faults);
      assertTrue(column.figures.inBand() > 0.9, "in band " + column.figures.inBand());
      assertTrue(!column.errors.isEmpty(), "nothing was looked at");
    }
  }

  private static void winter(Column column, long seed, int days) throws SetupException {
    column.add(
        seed,
        new Rehearsal(UsualBench.of(CUPS), days, column.faults)
            .in(column.world)
            .run((scene, stand, draws) -> watched(scene, stand, column.errors), seed, day -> {}));
  }

  /** The program's own decisions, with a look at what it believes now and then. */
  private static Policy watched(Scene scene, Stand stand, List<Double> errors)
      throws SetupException {
    CupwardenPolicy own = new CupwardenPolicy(scene.bench(), scene.names());
    int[] ticks = new int[1];
    return readings -> {
      Policy.Decision decision = own.decide(readings);
      if (++ticks[0] % LOOK_EVERY == 0) {
        look(own, scene, stand, errors);
      }
      return decision;
    };
  }

  private static void look(CupwardenPolicy own, Scene scene, Stand stand, List<Double> errors) {
    for (CupStatus status : own.standing().statuses()) {
      int cup = Collections.binarySearch(scene.names(), status.cup());
      TrueCup truth = scene.cup(cup);
      boolean stands = stand.onBench()[cup] && stand.placeOf(cup) == cup && truth.alive();
      if (stands && status.depletion() != null) {
        errors.add(status.depletion() - truth.depletion());
      }
    }
  }

  private String text(int seeds, int days) {
    StringBuilder text = new StringBuilder();
    text.append(
        "seeds 1 to %d, each %d cups for %d days, in each world with common and with all faults."
            .formatted(seeds, CUPS, days));
    text.append(
        " Depletion as the program tells it every six hours against the truth, of living cups in"
            + " their places.\n\n");
    row(text, "", column -> column.world.word() + ", " + word(column.faults));
    text.append("|---|---|---|---|---|\n");
    row(text, "hours between wet line and dry line, %", c -> number(100 * c.figures.inBand(), 2));
    row(
        text,
        "hours past the wet line, a cup and week",
        c -> number(c.figures.wetHoursPerCupWeek(), 3));
    row(
        text,
        "hours past the dry line, a cup and week",
        c -> number(c.figures.dryHours() / c.figures.cupHours() * 168, 3));
    row(text, "cups lost, of " + CUPS * seeds, c -> "" + c.figures.lost());
    row(
        text,
        "of them rotted, dried up",
        c -> c.figures.lostRotted() + ", " + c.figures.lostDried());
    row(text, "error of depletion, rms", c -> number(c.rms(), 3));
    row(text, "95 of 100 looks within", c -> number(c.most(), 3));
    row(text, "run off, of what was given, %", c -> number(100 * c.figures.leachingFraction(), 2));
    row(
        text,
        "nitrogen, of what the label allows, %",
        c -> number(100 * c.figures.nMg() / c.figures.labelNMg(), 1));
    row(
        text,
        "EC at the end, mean and saltiest, mS/cm",
        c -> number(c.figures.ecMsPerCm(), 2) + ", " + number(c.figures.highestEcMsPerCm(), 2));
    row(text, "passes", c -> "%,d".formatted(c.figures.passes()));
    row(
        text,
        "limits broken, fed before toughened",
        c -> c.figures.violations() + ", " + c.figures.fedTooEarly());
    row(
        text,
        "false alerts in 100 cup-weeks",
        c -> number(falseOnes(c) / c.figures.cupHours() * 168 * 100, 1));
    text.append("\nAlerts: raised, of them false; conditions, of them missed.\n\n");
    row(text, "alert", column -> column.world.word() + ", " + word(column.faults));
    text.append("|---|---|---|---|---|\n");
    codes().forEach(code -> row(text, "`" + code + "`", c -> told(c.figures.alerts().get(code))));
    return text.toString();
  }

  private SortedSet<String> codes() {
    return columns.stream()
        .flatMap(column -> column.figures.alerts().keySet().stream())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static double falseOnes(Column column) {
    return column.figures.alerts().values().stream().mapToInt(AlertCount::falseOnes).sum();
  }

  private static String told(AlertCount count) {
    return count == null
        ? "0"
        : "%,d, %,d; %,d, %,d"
            .formatted(count.raised(), count.falseOnes(), count.conditions(), count.missed());
  }

  private void row(StringBuilder text, String name, Function<Column, String> cell) {
    text.append("| ").append(name);
    columns.forEach(column -> text.append(" | ").append(cell.apply(column)));
    text.append(" |\n");
  }

  private static String word(FaultLevel faults) {
    return faults.name().toLowerCase(Locale.ROOT) + " faults";
  }

  private static String number(double value, int decimals) {
    return String.format(Locale.ROOT, "%,." + decimals + "f", value);
  }
}
