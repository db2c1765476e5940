package dev.cupwarden.app.check;

import com.pi4j.context.Context;
import dev.cupwarden.app.BenchSource;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.clock.BenchTime;
import dev.cupwarden.app.clock.RealTime;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardContext;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.units.Dimension;
import dev.cupwarden.core.units.Quantity;
import dev.cupwarden.core.units.QuantityException;
import dev.cupwarden.simulator.SimulatedBench;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/**
 * {@code check}: looks at a bench before it is left alone. It switches nothing on, but with {@code
 * --prove}, when somebody stands by.
 */
@Command(
    name = "check",
    description = {
      "Looks at configuration, wiring, permissions, sensors, tubes, tanks and safety; switches"
          + " nothing on but with --prove.",
      "Exit code: 0 all is well (notes may stand), 1 something must be put right, 2 the bench file"
          + " or an option is wrong."
    },
    mixinStandardHelpOptions = true)
public final class CheckCommand implements Callable<Integer> {
  private static final int BAD_USAGE = 2;

  @Spec private CommandSpec spec;

  @Option(
      names = "--bench",
      required = true,
      paramLabel = "FILE",
      description = "The bench file, with its wiring.")
  private Path benchFile;

  @Option(
      names = "--data",
      paramLabel = "FOLDER",
      description = "The folder that the journal is kept in; looked at when given.")
  private Path data;

  @Option(
      names = "--tray",
      paramLabel = "VOLUME",
      description =
          "What the drip tray holds, such as \"16 L\"; asked for when missing here and in the bench"
              + " file.")
  private String tray;

  @Option(
      names = "--confirm",
      paramLabel = "WORD",
      split = ",",
      description =
          "Safety questions answered with yes: valves, timer, tank, supply, rcd, drip-loop,"
              + " air-gap, or all.")
  private List<String> confirm = List.of();

  @Option(
      names = "--ask",
      negatable = true,
      description = "Whether to ask what no option says (default: on a terminal).")
  private Boolean ask;

  @Option(
      names = "--prove",
      description =
          "Prove with you beside it that timer, leak sensor, floats and valves act; gives each cup"
              + " some 5 mL. Needs --data, where it is put down, and the program not running.")
  private boolean prove;

  @Option(
      names = "--simulate",
      description = "Look at a simulated board; the machine's devices are left out.")
  private boolean simulate;

  @Override
  public Integer call() throws IOException, SetupException {
    Bench bench = BenchSource.load(benchFile);
    PrintWriter out = spec.commandLine().getOut();
    if (bench.board().isEmpty()) {
      return refuse(benchFile + " board: there is no wiring to check");
    }
    Set<String> confirmed = new TreeSet<>(confirm);
    boolean asking = ask == null ? System.console() != null : ask;
    Optional<String> misuse = misuse(confirmed, asking);
    if (misuse.isPresent()) {
      return refuse(misuse.get());
    }
    BoardWiring wiring = bench.board().get();
    Bystander person =
        new Bystander(
            new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8)), out);
    List<Finding> findings = new ArrayList<>();
    OptionalDouble trayMl;
    try {
      findings.add(Finding.ok("config", "%d cups".formatted(bench.cups().size())));
      out.print(BenchBoard.busMap(wiring));
      out.flush();
      findings.add(Finding.ok("wiring", "no place is taken twice"));
      trayMl = trayMl(bench, person, asking);
    } catch (BoardException | QuantityException wrong) {
      return refuse(wrong.getMessage());
    }
    machine(wiring, findings);
    BenchCheck check = new BenchCheck(bench, wiring);
    findings.addAll(hardware(bench, check, person));
    findings.addAll(check.safety());
    findings.addAll(check.tubes());
    findings.addAll(check.tanks(trayMl));
    findings.addAll(new HoseCheck(bench).all());
    findings.addAll(new MixCheck(bench).all());
    findings.addAll(new PlantCheck(bench).all());
    Sentences.withoutPlace(bench, false)
        .ifPresent(told -> findings.add(Finding.note("place", told)));
    findings.addAll(new SafetyAnswers(confirmed, person, asking).all());
    return report(findings, out);
  }

  /** What is wrong with the options together. */
  private Optional<String> misuse(Set<String> confirmed, boolean asking) {
    for (String word : confirmed) {
      if (!word.equals("all") && !SafetyQuestion.words().contains(word)) {
        return Optional.of(
            "--confirm: \"%s\" is none of all, %s"
                .formatted(word, String.join(", ", SafetyQuestion.words())));
      }
    }
    return prove && (data == null || !asking)
        ? Optional.of("--prove: needs --data, and somebody who answers (--ask)")
        : Optional.empty();
  }

  private int refuse(String sentence) {
    spec.commandLine().getErr().println(sentence);
    spec.commandLine().getErr().flush();
    return BAD_USAGE;
  }

  private OptionalDouble trayMl(Bench bench, Bystander person, boolean asking)
      throws IOException, QuantityException {
    String text = tray;
    if (text == null && bench.toldTrayMl().isPresent()) {
      return bench.toldTrayMl();
    }
    if (text == null && asking) {
      text = person.tells("How much does the drip tray hold (such as 16 L)? ");
    }
    return text == null || text.isBlank()
        ? OptionalDouble.empty()
        : OptionalDouble.of(Quantity.parse(text.strip(), Dimension.VOLUME).inBase());
  }

  private void machine(BoardWiring wiring, List<Finding> findings) {
    MachineCheck machine = new MachineCheck(Path.of("/"));
    if (!simulate) {
      findings.addAll(machine.devices(wiring));
      findings.add(machine.clock());
      findings.add(machine.watchdog());
    }
    if (data != null) {
      findings.add(machine.folder(data));
    }
  }

  /** One scan, the proof where it is asked for, and whether one is due. */
  private List<Finding> hardware(Bench bench, BenchCheck check, Bystander person)
      throws IOException {
    List<Finding> findings = new ArrayList<>();
    try {
      onBoard(
          bench,
          (board, time) -> {
            findings.addAll(check.sensors(board.read()));
            if (prove) {
              proof(bench, board, time, person, findings);
            }
          });
    } catch (BoardException unusable) {
      findings.add(Finding.fail("sensors", unusable.getMessage()));
    }
    if (data != null) {
      new ProofRecord(data)
          .asks(bench.board().orElseThrow(), Instant.now())
          .ifPresent(asks -> findings.add(Finding.note("proof", asks)));
    }
    return findings;
  }

  private void proof(
      Bench bench, BenchBoard board, BenchTime time, Bystander person, List<Finding> findings)
      throws IOException {
    List<Finding> proved = new Proof(bench, board, time, person).all();
    findings.addAll(proved);
    if (proved.stream().noneMatch(step -> step.level() == Finding.Level.FAIL)) {
      new ProofRecord(data).write(bench.board().orElseThrow(), Instant.now());
    }
  }

  /** What is done with a board that is open. */
  private interface OnBoard {
    void act(BenchBoard board, BenchTime time) throws BoardException, IOException;
  }

  private void onBoard(Bench bench, OnBoard action) throws BoardException, IOException {
    if (simulate) {
      SimulatedBench world = SimulatedBench.of(bench, 1, Instant.now());
      Context context = world.newContext();
      AcceleratedTime time = new AcceleratedTime(world.time(), AcceleratedTime.UNBOUNDED);
      try (BenchBoard board = BenchBoard.open(context, bench, time, world::oneWire)) {
        action.act(board, time);
      } finally {
        context.shutdown();
      }
      return;
    }
    Context context = BoardContext.real(bench);
    try (RealTime time = new RealTime();
        BenchBoard board = BenchBoard.open(context, bench, time)) {
      action.act(board, time);
    } finally {
      context.shutdown();
    }
  }

  private static int report(List<Finding> findings, PrintWriter out) {
    findings.forEach(
        finding ->
            out.printf(
                "%-4s  %-11s  %s%n",
                finding.level().word(), finding.subject(), finding.sentence()));
    long failed = findings.stream().filter(f -> f.level() == Finding.Level.FAIL).count();
    out.println(
        failed == 0
            ? "Nothing was found against it. Software is never the only thing that stops a pump."
            : failed + " to be put right before the bench is left alone.");
    out.flush();
    return failed == 0 ? 0 : 1;
  }
}
