package dev.cupwarden.app;

import dev.cupwarden.app.advise.AdviseCommand;
import dev.cupwarden.app.calibrate.CalibrateCommand;
import dev.cupwarden.app.check.CheckCommand;
import dev.cupwarden.core.setup.SetupException;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.Spec;

/**
 * The controller's command line. Exit codes of every command: 0 done, 1 failed, 2 bad usage or
 * configuration, 70 the program itself has broken. What goes wrong is told in one sentence on
 * standard error.
 */
@Command(
    name = "cupwarden-controller",
    description = "Waters and feeds rooting cuttings in small cups, by weight.",
    mixinStandardHelpOptions = true,
    versionProvider = ControllerCommand.Version.class,
    subcommands = {
      AdviseCommand.class,
      RunControllerCommand.class,
      CalibrateCommand.class,
      CheckCommand.class,
      JournalCommand.class,
      RehearseCommand.class,
      RecipeCommand.class,
      PlantsCommand.class
    })
public final class ControllerCommand implements Callable<Integer> {
  private static final Logger LOG = LoggerFactory.getLogger(ControllerCommand.class);

  /** A part of the program has broken; sysexits.h has it as a software error. */
  static final int BROKEN = 70;

  @Spec private CommandSpec spec;

  public static void main(String[] args) {
    // Numbers are read with a point and plain digits; they are written so on every machine.
    Locale.setDefault(Locale.ROOT);
    int code = BROKEN;
    try {
      code = commandLine().execute(args);
    } catch (Error broken) {
      // Threads that others have started would keep a process alive that does nothing any more.
      LOG.error("The program has failed", broken);
    } finally {
      System.exit(code);
    }
  }

  /** The whole command line, ready to execute. */
  public static CommandLine commandLine() {
    return new CommandLine(new ControllerCommand())
        .setExecutionExceptionHandler(ControllerCommand::tell)
        .setParameterExceptionHandler(
            (wrong, args) -> {
              CommandLine command = wrong.getCommandLine();
              command
                  .getErr()
                  .println(
                      "%s; see %s --help"
                          .formatted(wrong.getMessage(), command.getCommandSpec().qualifiedName()));
              return CommandLine.ExitCode.USAGE;
            });
  }

  @Override
  public Integer call() {
    spec.commandLine().usage(spec.commandLine().getErr());
    return CommandLine.ExitCode.USAGE;
  }

  private static int tell(Exception failure, CommandLine command, ParseResult parsed) {
    LOG.debug("{} failed", command.getCommandName(), failure);
    if (failure instanceof SetupException) {
      command.getErr().println(failure.getMessage());
      return CommandLine.ExitCode.USAGE;
    }
    command
        .getErr()
        .println(
            "%s failed: %s"
                .formatted(
                    command.getCommandName(),
                    Optional.ofNullable(failure.getMessage())
                        .orElse(failure.getClass().getSimpleName())));
    return CommandLine.ExitCode.SOFTWARE;
  }

  /** The version that the build wrote into the jar. */
  static final class Version implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"cupwarden-controller " + ProgramVersion.text()};
    }
  }
}
