package dev.cupwarden.host.app;

import dev.cupwarden.host.notify.NoticeService;
import dev.cupwarden.host.notify.NoticeSettings;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code notice --test}: does a notice arrive? */
@Command(
    name = "notice",
    description = "Tests whether notices arrive.",
    mixinStandardHelpOptions = true)
final class NoticeCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--notices",
      required = true,
      paramLabel = "FILE",
      description = "The YAML file given to run.")
  private Path file;

  @Option(
      names = "--test",
      required = true,
      description = "Send a notice that says it is only a test, by e-mail and webhook.")
  @SuppressWarnings(
      "UnusedVariable") // Demanded so that nobody sends by accident; there is no else.
  private boolean test;

  @Override
  public Integer call() {
    Map<String, String> outcomes =
        NoticeService.test(NoticeSettings.read(file), InstantSource.system());
    PrintWriter out = spec.commandLine().getOut();
    outcomes.forEach((way, outcome) -> out.println(way + ": " + outcome));
    out.flush();
    boolean all = outcomes.values().stream().allMatch(NoticeService.SENT::equals);
    return all ? 0 : HostCommand.FAILED;
  }
}
