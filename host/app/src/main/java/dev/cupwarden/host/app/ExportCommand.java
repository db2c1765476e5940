package dev.cupwarden.host.app;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.review.Export;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code export}: what is stored, for other programs. */
@Command(
    name = "export",
    description = "Writes what is stored of a bench for other programs.",
    mixinStandardHelpOptions = true)
final class ExportCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private StoreQueryOptions stored;

  @Parameters(
      paramLabel = "WHAT",
      description = {
        "readings, doses, alerts or season (CSV), senml (RFC 8428), or advise: lines for the"
            + " controller's advise."
      })
  private String what;

  @Option(
      names = {"-o", "--out"},
      paramLabel = "FILE",
      description = "Into this new file; otherwise to standard output.")
  private Path file;

  @Override
  public Integer call() {
    Export export =
        Export.named(what)
            .orElseThrow(
                () ->
                    new ParameterException(
                        spec.commandLine(),
                        "WHAT: expected one of " + Export.names() + ", not \"" + what + "\"."));
    try (Store store = stored.open()) {
      if (file == null) {
        export.write(store, stored.asked(), spec.commandLine().getOut());
      } else {
        try (Writer out = Files.newBufferedWriter(file, StandardOpenOption.CREATE_NEW)) {
          export.write(store, stored.asked(), out);
        }
      }
      return 0;
    } catch (java.nio.file.FileAlreadyExistsException there) {
      throw new HostException(file + " is there already and is not written over.", there);
    } catch (IOException failed) {
      throw new HostException("The export could not be written.", failed);
    }
  }
}
