package dev.cupwarden.app.calibrate;

import dev.cupwarden.app.BenchSource;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.weighing.TestLoad;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/**
 * {@code calibrate}: finds the factors of a scale, a probe or the pump, and keeps their history.
 */
@Command(
    name = "calibrate",
    description = {
      "Calibrates a scale, a probe or the pump, and prints the keys for the bench file.",
      "At a prompt, \"undo\" goes a step back. Exit code: 0 accepted, 1 refused (nothing is"
          + " kept), 2 wrong option or bench file."
    },
    mixinStandardHelpOptions = true)
public final class CalibrateCommand implements Callable<Integer> {
  private static final int BAD_USAGE = 2;

  /** What is calibrated, or done with the history. */
  enum Subject {
    scale,
    probe,
    pump,
    undo,
    history
  }

  @Spec private CommandSpec spec;

  @Parameters(index = "0", description = "scale, probe, pump, undo or history.")
  private Subject subject;

  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "NAME",
      description =
          "Name of the scale or probe; for pump, the cup whose tube is used; for undo, such as"
              + " \"scale s1\" or \"pump\".")
  private String name;

  @Option(names = "--bench", paramLabel = "FILE", description = "The bench file, with its wiring.")
  private Path benchFile;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "FOLDER",
      description = "Where the history of factors is kept.")
  private Path data;

  @Option(
      names = "--weights",
      split = ",",
      paramLabel = "G",
      description = "For a scale: class M1 weights, one at a time (default: 100,200,500).")
  private List<Double> weights = List.of(100.0, 200.0, 500.0);

  @Option(
      names = "--interval",
      paramLabel = "G",
      defaultValue = "1",
      description = "For a scale: the interval it is to be good for (default: ${DEFAULT-VALUE} g).")
  private double intervalG;

  @Option(
      names = "--thetas",
      split = ",",
      paramLabel = "PART",
      description = "For a probe: contents to go through, rising (default: 0.2,0.35,0.5).")
  private List<Double> thetas = List.of(0.2, 0.35, 0.5);

  @Option(
      names = "--seconds",
      paramLabel = "S",
      defaultValue = "20",
      description = "For the pump: length of a run (default: ${DEFAULT-VALUE} s).")
  private int seconds;

  @Option(
      names = "--measured",
      split = ",",
      paramLabel = "ML",
      description = "For the pump: what each run moved; three or more.")
  private List<Double> measuredMl = List.of();

  @Option(
      names = "--weighed-at",
      paramLabel = "C",
      description =
          "For the pump: what each run moved is weighed, in g of water of that temperature, and not"
              + " read off in mL.")
  private Double weighedAtC;

  @Option(
      names = "--yes",
      description = "Ask nothing: what is asked for is done, what is proposed is taken.")
  private boolean silent;

  @Option(names = "--simulate", description = "Calibrate a simulated bench.")
  private boolean simulate;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "With --simulate: the same number gives the same world.")
  private long seed;

  private OptionalDouble weighed() {
    if (weighedAtC == null) {
      return OptionalDouble.empty();
    }
    if (!(weighedAtC >= 0 && weighedAtC <= 40)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--weighed-at: expected 0 to 40 C, not " + weighedAtC);
    }
    return OptionalDouble.of(weighedAtC);
  }

  @Override
  public Integer call() throws IOException, SetupException {
    PrintWriter out = spec.commandLine().getOut();
    try {
      History history = new History(data);
      if (subject == Subject.history) {
        history.lines().forEach(out::println);
        out.flush();
        return 0;
      }
      if (name == null && subject != Subject.pump) {
        return say("%s: which one is missing".formatted(subject), BAD_USAGE);
      }
      if (subject == Subject.undo) {
        out.println(
            history
                .undo(Instant.now(), name)
                .map(keys -> "In the bench file again: " + keys)
                .orElse("Nothing else was kept of " + name + "."));
        out.flush();
        return 0;
      }
      return calibrated(history, out);
    } catch (BoardException | Refused refused) {
      return say(refused.getMessage(), 1);
    }
  }

  private int calibrated(History history, PrintWriter out)
      throws IOException, SetupException, BoardException, Refused {
    if (benchFile == null) {
      return say("--bench is missing", BAD_USAGE);
    }
    Bench bench = BenchSource.load(benchFile);
    if (bench.board().isEmpty()) {
      return say(benchFile + " board: there is no wiring to calibrate", BAD_USAGE);
    }
    Collection<String> known = known(bench, bench.board().get());
    String part = name == null ? bench.cups().firstKey() : name;
    if (!known.contains(part)) {
      return say(
          "%s: \"%s\" is none of %s".formatted(subject, part, String.join(", ", known)), BAD_USAGE);
    }
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    Dialogue dialogue = new Dialogue(in, out, silent);
    try (Workbench workbench = new Workbench(bench, simulate, seed)) {
      ScaleCalibration.Result result =
          switch (subject) {
            case scale -> new ScaleCalibration(workbench, dialogue, part).run(loads(), intervalG);
            case probe -> new ProbeCalibration(workbench, dialogue, part).run(thetas);
            default ->
                new PumpCalibration(workbench, dialogue, part, weighed())
                    .run(Math.max(3, measuredMl.size()), Duration.ofSeconds(seconds), measuredMl);
          };
      String kept = subject == Subject.pump ? "pump" : subject + " " + part;
      history.accepted(workbench.now(), kept, result.keys(), result.findings());
      out.println(result.findings());
      out.println("For the bench file, " + kept + ": " + result.keys());
      out.flush();
      return 0;
    }
  }

  private Collection<String> known(Bench bench, BoardWiring wiring) {
    return switch (subject) {
      case scale -> wiring.scales().keySet();
      case probe -> wiring.more().probes().keySet();
      default -> bench.cups().keySet();
    };
  }

  private List<TestLoad> loads() throws Refused {
    try {
      return Stream.concat(
              Stream.of(TestLoad.NONE),
              weights.stream().sorted().map(g -> TestLoad.classM1(List.of(g))))
          .toList();
    } catch (IllegalArgumentException noSuchWeight) {
      throw new Refused("--weights: " + noSuchWeight.getMessage() + ".");
    }
  }

  private int say(String sentence, int code) {
    spec.commandLine().getErr().println(sentence);
    spec.commandLine().getErr().flush();
    return code;
  }
}
