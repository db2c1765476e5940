package dev.cupwarden.host.app;

import dev.cupwarden.core.substrate.DryDown;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.review.DryDownPicture;
import dev.cupwarden.host.review.StoredDryDowns;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code review}: how a cup has dried, watering by watering. */
@Command(
    name = "review",
    description = "Shows a cup's dry-downs as a table, and as a picture.",
    mixinStandardHelpOptions = true)
final class ReviewCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private StoreQueryOptions stored;

  @Option(names = "--cup", required = true, paramLabel = "NAME", description = "Which cup.")
  private String cup;

  @Option(
      names = "--svg",
      paramLabel = "FILE",
      description = "Draw them over one another into this file.")
  private Path picture;

  @Override
  public Integer call() {
    try (Store store = stored.open()) {
      List<DryDown> dryDowns = StoredDryDowns.of(store, stored.asked(), cup);
      spec.commandLine().getOut().print(StoredDryDowns.table(store, stored.asked(), dryDowns));
      spec.commandLine().getOut().flush();
      if (picture != null) {
        Files.writeString(picture, DryDownPicture.of("Cup " + cup, dryDowns));
      }
      return 0;
    } catch (IOException failed) {
      throw new HostException("The file " + picture + " cannot be written.", failed);
    }
  }
}
