package dev.cupwarden.host.app;

import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.StoreMaintenance;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import java.nio.file.Path;
import java.time.InstantSource;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code store}: copy it, or give room back. */
@Command(
    name = "store",
    description = "Copies the store or frees disk space; the host may keep running.",
    mixinStandardHelpOptions = true)
final class StoreCommand {
  @Command(name = "backup", description = "Copies a SQLite store into one new file.")
  int backup(
      @Option(names = "--data", required = true, paramLabel = "DIR") Path data,
      @Mixin StoreOptions keep,
      @Parameters(paramLabel = "FILE") Path file) {
    try (Store store = Store.open(keep.database(data))) {
      new StoreMaintenance(store, InstantSource.system(), Retention.USUAL)
          .backup(keep.database(data), file);
    }
    return 0;
  }

  @Command(name = "vacuum", description = "Frees disk space.")
  int vacuum(
      @Option(names = "--data", required = true, paramLabel = "DIR") Path data,
      @Mixin StoreOptions keep) {
    try (Store store = Store.open(keep.database(data))) {
      new StoreMaintenance(store, InstantSource.system(), Retention.USUAL).vacuum();
    }
    return 0;
  }
}
