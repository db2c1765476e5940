package dev.cupwarden.app;

import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.WatchReplay;
import dev.cupwarden.app.journal.WatchedText;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code journal watched}: what a watched bench would have been given beside what it got. */
@Command(
    name = "watched",
    description = {
      "Tells of a bench that was run with --watch what the program would have given each cup, what"
          + " a person gave it, and where the two differed. It speaks of the cups as the person"
          + " keeps them, and of as many weeks as the journal keeps what was seen."
    },
    mixinStandardHelpOptions = true)
final class WatchedCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "The journal.")
  private Path file;

  @Option(names = "--cup", paramLabel = "NAME", description = "Only that cup.")
  private String cup;

  @Option(
      names = "--since",
      paramLabel = "TIME",
      description = "Leave out what was before, such as 2027-02-14T00:00:00Z.")
  private Instant since = Instant.MIN;

  @Option(names = "--all", description = "Show waterings that did not differ, too.")
  private boolean all;

  @Override
  public Integer call() {
    return JournalCommand.read(spec, file, this::tell);
  }

  private void tell(JournalExport journal, PrintWriter out) throws JournalException {
    WatchedText.print(WatchReplay.of(journal, since, Optional.ofNullable(cup)).values(), all, out);
  }
}
