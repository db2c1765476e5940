package dev.cupwarden.app.advise;

import dev.cupwarden.app.BenchSource;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.setup.Window;
import dev.cupwarden.core.tick.Tick;
import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.ExitCode;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Option;
import picocli.CommandLine.TypeConversionException;

/** Advice from readings on standard input, with no pump. */
@Command(
    name = "advise",
    mixinStandardHelpOptions = true,
    description = {
      "Reads one line of readings after another on standard input, in order of time, and answers "
          + "each at once with one line of what to do.",
      "A line is a JSON object; or, if the first line begins with \"at\", \"Date\" or the like, a "
          + "row of a table as a spreadsheet saves it."
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

  @Option(
      names = "--text",
      description =
          "Answer in sentences for a person, amounts to 5 mL; so it is on a terminal with --daily.")
  private boolean text;

  @Option(
      names = "--dates",
      paramLabel = "ORDER",
      converter = WrittenOrder.class,
      description =
          "Of dates such as 2/3/2027: day-first or month-first. As a rule the bench's place tells.")
  private DateOrder dates;

  @Option(names = "--csv", description = "The input is a table; its first line names the columns.")
  private boolean csv;

  @Override
  public Integer call() throws SetupException, IOException {
    Tick tick = BenchSource.tick(benchFile, daily ? Tick.Rounds.DAILY : Tick.Rounds.ONE_A_TICK);
    Bench bench = tick.bench();
    Adviser adviser = new TickAdviser(tick);
    // Beside the answers, of which there is one a line.
    Sentences.withoutPlace(bench, daily).ifPresent(System.err::println);
    ZoneId zone = bench.place().map(Place::zone).orElse(ZoneOffset.UTC);
    AdviceWriter writer =
        text || (daily && Terminal.takesOutput()) ? new AdviceText(zone) : new AdviceJson();
    AdviseSession session =
        new AdviseSession(bench, adviser, writer, brief, () -> table(bench, zone));
    if (csv) {
      session.expectTable();
    }
    // Not System.out, which would hide that nobody takes the output any more; not ours to close.
    OutputStream out = new BufferedOutputStream(new FileOutputStream(FileDescriptor.out));
    return session.run(System.in, out) ? ExitCode.OK : ExitCode.SOFTWARE;
  }

  private LineFormat table(Bench bench, ZoneId zone) {
    Optional<DateOrder> order =
        Optional.ofNullable(dates)
            .or(() -> bench.place().map(Place::zone).flatMap(DateOrder::usualAt));
    LocalTime hour =
        bench.watering().window() instanceof Window.Hours open ? open.from() : LocalTime.NOON;
    return new CsvLines(
        new SpreadsheetTime(zone, order, hour), bench.tanks().keySet(), System.err::println);
  }

  /** The option's words. */
  static final class WrittenOrder implements ITypeConverter<DateOrder> {
    @Override
    public DateOrder convert(String written) {
      return switch (written) {
        case "day-first" -> DateOrder.DAY_FIRST;
        case "month-first" -> DateOrder.MONTH_FIRST;
        default -> throw new TypeConversionException("expected day-first or month-first");
      };
    }
  }
}
