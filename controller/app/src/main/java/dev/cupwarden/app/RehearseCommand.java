package dev.cupwarden.app;

import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.rehearsal.EstimateScore;
import dev.cupwarden.simulator.rehearsal.EstimateTrial;
import dev.cupwarden.simulator.rehearsal.KnowledgeTrial;
import dev.cupwarden.simulator.rehearsal.PolicyKind;
import dev.cupwarden.simulator.rehearsal.Rehearsal;
import dev.cupwarden.simulator.rehearsal.RehearsalReport;
import dev.cupwarden.simulator.rehearsal.UsualBench;
import dev.cupwarden.simulator.rehearsal.World;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code rehearse}: a winter on the simulator, for one policy or several, in figures. */
@Command(
    name = "rehearse",
    description = {
      "Runs the bench on the simulator for so many days and tells, policy by policy, what became of"
          + " the cups. The same seed gives the same figures."
    },
    mixinStandardHelpOptions = true,
    exitCodeListHeading = "Exit codes:%n",
    exitCodeList = {
      "0:done",
      "1:the controller's own policy broke a limit; the line to see it again is printed",
      "2:bad usage or a bench file that cannot be used"
    })
public final class RehearseCommand implements Callable<Integer> {
  private static final int MOST_DAYS = 3660;
  private static final int MOST_SEEDS = 10_000;

  @Spec private CommandSpec spec;

  @ArgGroup private Cups which = new Cups();

  /** A bench file, or as many cups of a usual bench. */
  private static final class Cups {
    @Option(names = "--bench", paramLabel = "FILE", description = "The bench file.")
    private Path file;

    @Option(
        names = "--cups",
        paramLabel = "N",
        description = "Number of cups of a usual bench, 1 to 999 (24 where no bench is named).")
    private Integer count;
  }

  @Option(names = "--days", paramLabel = "D", description = "Number of days, 1 to 3660 (120).")
  private int days = 120;

  @Option(names = "--seed", paramLabel = "S", description = "The first seed (1).")
  private long seed = 1;

  @Option(
      names = "--seeds",
      paramLabel = "N",
      description = "Number of seeds, one after another (1).")
  private int seeds = 1;

  @Option(
      names = "--policy",
      paramLabel = "NAME",
      split = ",",
      description = "cupwarden, timer, threshold, by-hand, oracle; several by comma (cupwarden).")
  private List<String> policies = List.of("cupwarden");

  @Option(names = "--faults", paramLabel = "LEVEL", description = "none, common or all (common).")
  private String faults = "common";

  @Option(
      names = "--world",
      paramLabel = "NAME",
      description = {
        "first, second or both (first): two sets of physics, plants, rooms and people that share"
            + " nothing, so that what holds in both does not hold by one picture alone."
      })
  private String world = "first";

  @Option(
      names = "--estimates",
      description = {
        "In place of policies: how well weights, events and forecasts are told, in a room that"
            + " goes from 15 to 25 C each day (more than 2 days; 10 are plenty)."
      })
  private boolean estimates;

  @Option(names = "--json", description = "One JSON object in place of the table.")
  private boolean json;

  @Override
  public Integer call() throws ExecutionException, InterruptedException {
    List<PolicyKind> kinds = policies.stream().map(this::policy).distinct().toList();
    FaultLevel level = level();
    List<World> worlds = worlds();
    within("--days", days, MOST_DAYS);
    within("--seeds", seeds, MOST_SEEDS);
    Rehearsal rehearsal = new Rehearsal(bench(), days, level);
    if (estimates && worlds.size() > 1) {
      throw wrong("--estimates: goes with --world first or second, not with both");
    }
    if (estimates) {
      return estimates(rehearsal.in(worlds.get(0)));
    }
    RehearsalRun run = new RehearsalRun(rehearsal, worlds, kinds, seed, seeds);
    RehearsalReport report = report(run);
    PrintWriter out = spec.commandLine().getOut();
    out.println(json ? Json.written(report) : RehearsalTable.of(report));
    out.flush();
    PrintWriter err = spec.commandLine().getErr();
    err.printf(Locale.ROOT, "%,.0f cup-days simulated a second%n", run.cupDaysPerS());
    List<RehearsalRun.Broken> broken = run.brokenBy(PolicyKind.CUPWARDEN);
    for (RehearsalRun.Broken each : broken) {
      err.println("a limit was broken: " + each.first());
      err.println("  to see it again: " + again(each));
    }
    err.flush();
    return broken.isEmpty() ? 0 : 1;
  }

  private int estimates(Rehearsal rehearsal) {
    if (rehearsal.faults() == FaultLevel.ALL || json) {
      throw wrong("--estimates: goes with --faults none or common, and prints a table only");
    }
    EstimateScore all =
        LongStream.range(seed, seed + seeds)
            .parallel()
            .mapToObj(each -> EstimateTrial.run(rehearsal, each))
            .collect(EstimateScore::new, EstimateScore::add, EstimateScore::add);
    PrintWriter out = spec.commandLine().getOut();
    all.lines().forEach(out::println);
    EstimateScore watering =
        LongStream.range(seed, seed + seeds)
            .parallel()
            .mapToObj(each -> knowledge(rehearsal, each))
            .collect(EstimateScore::new, EstimateScore::add, EstimateScore::add);
    watering.linesOfItself("rehearsed: ").forEach(out::println);
    out.flush();
    return 0;
  }

  private EstimateScore knowledge(Rehearsal rehearsal, long each) {
    try {
      return KnowledgeTrial.run(rehearsal, each);
    } catch (SetupException refused) {
      throw wrong(refused.getMessage());
    }
  }

  private RehearsalReport report(RehearsalRun run) throws ExecutionException, InterruptedException {
    try {
      return run.go();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof SetupException refused) {
        throw wrong(refused.getMessage());
      }
      throw e;
    }
  }

  private String again(RehearsalRun.Broken broken) {
    String cups = which.file != null ? "--bench " + which.file : "--cups " + cupCount();
    return "rehearse "
        + cups
        + " --days "
        + days
        + " --seed "
        + broken.seed()
        + " --policy cupwarden --faults "
        + faults
        + (broken.world() == World.FIRST ? "" : " --world " + broken.world().word());
  }

  private Bench bench() {
    try {
      if (which.file != null) {
        return BenchSource.load(which.file);
      }
      return UsualBench.of(cupCount());
    } catch (SetupException | IllegalArgumentException e) {
      throw wrong(e.getMessage());
    }
  }

  private int cupCount() {
    return which.count == null ? 24 : which.count;
  }

  private PolicyKind policy(String word) {
    return PolicyKind.of(word)
        .orElseThrow(
            () ->
                wrong(
                    "--policy: \""
                        + word
                        + "\" is not a policy; known: "
                        + words(PolicyKind.values())));
  }

  private FaultLevel level() {
    for (FaultLevel level : FaultLevel.values()) {
      if (level.name().toLowerCase(Locale.ROOT).equals(faults)) {
        return level;
      }
    }
    throw wrong("--faults: \"" + faults + "\" is none of: none, common, all");
  }

  private List<World> worlds() {
    if (world.equals("both")) {
      return List.of(World.values());
    }
    return List.of(
        World.of(world)
            .orElseThrow(
                () -> wrong("--world: \"" + world + "\" is none of: first, second, both")));
  }

  private void within(String option, int value, int most) {
    if (value < 1 || value > most) {
      throw wrong(option + ": expected 1 to " + most + ", not " + value);
    }
  }

  private ParameterException wrong(String sentence) {
    return new ParameterException(spec.commandLine(), sentence);
  }

  private static String words(PolicyKind[] kinds) {
    return Arrays.stream(kinds).map(PolicyKind::word).collect(Collectors.joining(", "));
  }
}
