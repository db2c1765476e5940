package dev.cupwarden.app;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine;

/** The controller's command line, for a test: what the last run said is kept. */
public final class CommandRun {
  /** What it told whoever asked. */
  public final StringWriter out;

  /** What it told of refusals. */
  public final StringWriter err;

  private CommandRun(StringWriter out, StringWriter err) {
    this.out = out;
    this.err = err;
  }

  /** Answers and refusals apart. */
  public static CommandRun apart() {
    return new CommandRun(new StringWriter(), new StringWriter());
  }

  /** Both as a person sees them. */
  public static CommandRun together() {
    StringWriter said = new StringWriter();
    return new CommandRun(said, said);
  }

  /** Its exit code; what was said before is forgotten. */
  public int execute(String... args) {
    return execute(ControllerCommand.commandLine(), args);
  }

  /** The same with these arguments first. */
  public int execute(List<String> first, String... more) {
    List<String> args = new ArrayList<>(first);
    args.addAll(List.of(more));
    return execute(args.toArray(String[]::new));
  }

  /** Likewise of one command by itself. */
  public int execute(CommandLine command, String... args) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    command.setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
    return command.execute(args);
  }
}
