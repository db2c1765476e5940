package dev.cupwarden.app.advise;

import dev.cupwarden.app.BenchSource;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.tick.Tick;
import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.ExitCode;
import picocli.CommandLine.Option;

/** Advice from readings on standard input, with no pump. */
@Command(
    name = "advise",
    mixinStandardHelpOptions = true,
    description = {
      "Reads one line of readings after another on standard input, in order of time, and answers "
          + "each at once with one line of what to do.",
      "A line is a JSON object; or, if the first line begins with \"at,\", a row of a table."
    },
    exitCodeListHeading = "Exit codes:%n",
    exitCodeList = {
      "0:every line was read",
      "1:some line could not be read (its answer is an error object)",
      "2:bad usage, or a bench file that cannot be used"
    })
public final class AdviseCommand implements Callable<Integer> {
  @Option(
      names = "--bench",
      required = true,
      paramLabel = "FILE",
      description = "The bench file (YAML).")
  private Path benchFile;

  @Option(names = "--brief", description = "Leave out the state of the cups.")
  private boolean brief;

  @Option(
      names = "--daily",
      description = "Readings come once a day: a line may list a cup's whole watering.")
  private boolean daily;

  @Option(names = "--csv", description = "The input is a table; its first line names the columns.")
  private boolean csv;

  @Override
  public Integer call() throws SetupException, IOException {
    Bench bench = BenchSource.load(benchFile);
    Tick.Rounds rounds = daily ? Tick.Rounds.DAILY : Tick.Rounds.ONE_A_TICK;
    Adviser adviser = new TickAdviser(bench, BenchSource.tick(benchFile, bench, rounds));
    AdviseSession session = new AdviseSession(bench, adviser, brief, csv);
    // Not System.out, which would hide that nobody takes the output any more; not ours to close.
    OutputStream out = new BufferedOutputStream(new FileOutputStream(FileDescriptor.out));
    return session.run(System.in, out) ? ExitCode.OK : ExitCode.SOFTWARE;
  }
}
