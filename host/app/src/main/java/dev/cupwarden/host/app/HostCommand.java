package dev.cupwarden.host.app;

import dev.cupwarden.app.ProgramVersion;
import dev.cupwarden.host.HostException;
import java.util.Locale;
import org.slf4j.bridge.SLF4JBridgeHandler;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The host's program: {@code run} it, or see a {@code demo} of the whole path. */
@Command(
    name = "cupwarden-host",
    description = "Stores and shows what benches report, and sends them orders.",
    mixinStandardHelpOptions = true,
    versionProvider = HostCommand.Version.class,
    subcommands = {
      RunHostCommand.class,
      DemoCommand.class,
      ExportCommand.class,
      ReviewCommand.class,
      NoticeCommand.class,
      StoreCommand.class,
      UserCommand.class
    })
public final class HostCommand implements Runnable {
  /** Something that was asked did not succeed. */
  static final int FAILED = 1;

  @Spec private CommandSpec spec;

  public static void main(String[] arguments) {
    // Numbers are read with a point and plain digits; they are written so on every machine.
    Locale.setDefault(Locale.ROOT);
    // Parts that log by Java's own logging: into the same lines as all others.
    SLF4JBridgeHandler.removeHandlersForRootLogger();
    SLF4JBridgeHandler.install();
    System.exit(commandLine().execute(arguments));
  }

  static CommandLine commandLine() {
    return new CommandLine(new HostCommand())
        .setExecutionExceptionHandler(
            (failure, command, parsed) -> {
              if (failure instanceof HostException told) {
                command.getErr().println(told.getMessage());
                return FAILED;
              }
              throw failure;
            });
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Say what to do: run, demo, export, review, notice, store or user.");
  }

  /** From the jar's manifest. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"cupwarden-host " + ProgramVersion.text()};
    }
  }
}
