package dev.cupwarden.host.app;

import dev.cupwarden.host.HostSettings.Keeping;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Where the store is and how long it keeps things. */
final class StoreOptions {
  private static final int MOST_DAYS = 36_500;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--database",
      paramLabel = "URL",
      description = {
        "postgresql://user@host:5432/name instead of the SQLite file in --data. The password is"
            + " taken from CUPWARDEN_DATABASE_PASSWORD or ~/.pgpass."
      })
  private String url;

  @Option(
      names = "--keep-readings",
      paramLabel = "DAYS",
      description =
          "Single readings; their hourly extremes stay for good (default: ${DEFAULT-VALUE}).")
  private int readingsDays = (int) Retention.USUAL.readings().toDays();

  @Option(
      names = "--keep-events",
      paramLabel = "DAYS",
      description = "Events, orders, receipts (default: ${DEFAULT-VALUE}).")
  private int eventsDays = (int) Retention.USUAL.events().toDays();

  Database database(Path data) {
    return url == null
        ? Database.sqlite(data.resolve("host.db"))
        : Database.at(url, Optional.ofNullable(System.getenv("CUPWARDEN_DATABASE_PASSWORD")));
  }

  Keeping keeping(Path data) {
    Duration readings = days("--keep-readings", readingsDays);
    Duration tenMinutes =
        readings.compareTo(Retention.USUAL.tenMinutes()) > 0
            ? readings
            : Retention.USUAL.tenMinutes();
    return new Keeping(
        database(data), new Retention(readings, tenMinutes, days("--keep-events", eventsDays)));
  }

  private Duration days(String option, int days) {
    if (days < 1 || days > MOST_DAYS) {
      throw new ParameterException(
          spec.commandLine(), option + ": expected 1 to " + MOST_DAYS + " days, not " + days + ".");
    }
    return Duration.ofDays(days);
  }

  boolean isPostgresql() {
    return url != null && url.startsWith("postgres");
  }
}
