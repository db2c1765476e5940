package dev.cupwarden.app;

import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code journal}: reads a journal back, also while the controller runs. */
@Command(
    name = "journal",
    description = "Reads a journal back.",
    mixinStandardHelpOptions = true,
    subcommands = {
      JournalCommand.Export.class,
      JournalCommand.Starts.class,
      JournalCommand.Backup.class,
      WatchedCommand.class,
      WhyCommand.class
    })
public final class JournalCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    spec.commandLine().usage(spec.commandLine().getErr());
    return 2;
  }

  interface Reading {
    void of(JournalExport journal, PrintWriter out) throws JournalException;
  }

  static int read(CommandSpec spec, Path file, Reading reading) {
    PrintWriter out = spec.commandLine().getOut();
    try (JournalExport journal = JournalExport.open(file)) {
      reading.of(journal, out);
      out.flush();
      return 0;
    } catch (JournalException e) {
      PrintWriter err = spec.commandLine().getErr();
      err.println(e.getMessage());
      err.flush();
      return 1;
    }
  }

  /** {@code journal export}: what was seen, as advise reads it. */
  @Command(
      name = "export",
      description = "Prints what was seen and ordered, as input for advise.",
      mixinStandardHelpOptions = true)
  static final class Export implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "The journal.")
    private Path file;

    @Option(
        names = "--from-tick",
        paramLabel = "N",
        defaultValue = "0",
        description = "Leave out what was before that tick; see journal starts.")
    private long fromTick;

    @Override
    public Integer call() {
      return read(spec, file, (journal, out) -> journal.lines(fromTick, out));
    }
  }

  /** {@code journal starts}: from where a replay can begin. */
  @Command(
      name = "starts",
      description = "Lists the starts of the controller and the ends of days in a journal.",
      mixinStandardHelpOptions = true)
  static final class Starts implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "The journal.")
    private Path file;

    @Override
    public Integer call() {
      return read(
          spec,
          file,
          (journal, out) -> {
            List<JournalExport.StartEntry> starts = journal.starts();
            for (JournalExport.StartEntry start : starts) {
              out.printf(
                  "%d %s %s %s%n", start.firstTick(), start.at(), start.cause(), start.version());
            }
          });
    }
  }

  /** {@code journal backup}: a copy that is whole, also while the controller runs. */
  @Command(
      name = "backup",
      description = "Copies a journal, also while the controller runs.",
      mixinStandardHelpOptions = true)
  static final class Backup implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(index = "0", paramLabel = "FILE", description = "The journal.")
    private Path file;

    @Parameters(index = "1", paramLabel = "COPY", description = "The new file; must not exist yet.")
    private Path copy;

    @Override
    public Integer call() {
      return read(spec, file, (journal, out) -> journal.backup(copy));
    }
  }
}
