package dev.cupwarden.host.app;

import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Era;
import dev.cupwarden.host.store.Store;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Which store a command looks into, and at which bench and time. */
final class StoreQueryOptions {
  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "DIR",
      description = "The folder given to run; the host may go on meanwhile.")
  private Path data;

  @Mixin private StoreOptions keep;

  @Option(names = "--bench", required = true, paramLabel = "NAME", description = "Which bench.")
  private String bench;

  @Option(
      names = "--from",
      paramLabel = "TIME",
      description = "From this time on, such as 2027-02-14T08:00:00Z.")
  private String from;

  @Option(names = "--to", paramLabel = "TIME", description = "Up to this time.")
  private String to;

  Store open() {
    return Store.open(keep.database(data));
  }

  Asked asked() {
    Asked asked =
        new Asked(bench, time("--from", from, Era.EARLIEST), time("--to", to, Era.LATEST));
    if (!asked.from().isBefore(asked.to())) {
      throw new ParameterException(spec.commandLine(), "--from: expected a time before --to.");
    }
    return asked;
  }

  private Instant time(String option, String text, Instant otherwise) {
    if (text == null) {
      return otherwise;
    }
    try {
      return Era.read(text);
    } catch (DateTimeException wrong) {
      throw new ParameterException(
          spec.commandLine(),
          option + ": " + wrong.getMessage() + ", not \"" + text + "\".",
          wrong);
    }
  }
}
