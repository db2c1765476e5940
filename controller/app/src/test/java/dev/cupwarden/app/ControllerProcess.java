package dev.cupwarden.app;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;

/** The packaged controller as a process of the test's own, on a simulated bench. */
final class ControllerProcess implements AutoCloseable {
  private static final Path JAR = Path.of("target", "cupwarden-controller.jar");

  private static final Path CLASSES = Path.of("target", "cupwarden-controller.jsa");

  private static final Path SETTINGS = Path.of("src", "deb", "java-options");

  private static final Duration FIRST_TICK = Duration.ofSeconds(90);

  private static final Duration LONGEST_ANSWER = Duration.ofMinutes(4);

  private final Process process;
  private final Path errors;

  private ControllerProcess(Process process, Path errors) {
    this.process = process;
    this.errors = errors;
  }

  /**
   * @param folder gets the bench file, the journal and what the process says
   */
  static ControllerProcess start(Path folder, String... more) throws IOException {
    return with("-XX:SharedArchiveFile=" + CLASSES, folder, more);
  }

  /** Makes later starts cheaper: a first run leaves its classes for them, as the package's does. */
  static void shareClasses(Path folder) throws Exception {
    Path home = Files.createDirectories(folder.resolve("classes"));
    Files.deleteIfExists(CLASSES);
    try (ControllerProcess run = with("-XX:ArchiveClassesAtExit=" + CLASSES, home)) {
      await("its first tick")
          .atMost(FIRST_TICK)
          .until(() -> Files.exists(Path.of(journal(home) + ".tick")));
    }
  }

  private static ControllerProcess with(String classes, Path folder, String... more)
      throws IOException {
    Path bench = bench(folder);
    if (!Files.exists(bench)) {
      // A process starts at the hour of the day that it is; the tests must not depend on it.
      String anyHour =
          BackRoom.text()
              .replace("from: \"08:00\", to: \"16:00\"", "from: \"00:00\", to: \"23:59\"");
      Files.writeString(bench, anyHour);
    }
    List<String> arguments =
        new ArrayList<>(
            List.of(
                "run",
                "--bench",
                bench.toString(),
                "--journal",
                journal(folder).toString(),
                "--simulate"));
    arguments.addAll(List.of(more));
    Path errors = folder.resolve("run.err");
    Process process =
        new ProcessBuilder(command(classes, arguments))
            .redirectOutput(ProcessBuilder.Redirect.appendTo(folder.resolve("run.out").toFile()))
            .redirectError(ProcessBuilder.Redirect.appendTo(errors.toFile()))
            .start();
    return new ControllerProcess(process, errors);
  }

  private static List<String> command(String classes, List<String> arguments) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("@" + SETTINGS, classes, "-jar", JAR.toString()));
    command.addAll(arguments);
    return command;
  }

  /** What a command that ends by itself came to. */
  record Answer(int code, String out, String err) {}

  /**
   * Runs one to its end.
   *
   * @param in what it reads on standard input
   * @param folder gets what it says
   */
  static Answer answer(Path in, Path folder, String... arguments) throws Exception {
    Path out = folder.resolve("answer.out");
    Path err = folder.resolve("answer.err");
    Process process =
        new ProcessBuilder(command("-XX:SharedArchiveFile=" + CLASSES, List.of(arguments)))
            .redirectInput(in.toFile())
            .redirectOutput(out.toFile())
            .redirectError(err.toFile())
            .start();
    if (!process.waitFor(LONGEST_ANSWER.toSeconds(), TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("no end within " + LONGEST_ANSWER);
    }
    return new Answer(process.exitValue(), Files.readString(out), Files.readString(err));
  }

  static Path bench(Path folder) {
    return folder.resolve("back-room.yaml");
  }

  static Path journal(Path folder) {
    return folder.resolve("journal.db");
  }

  /** The exit code, or none within two minutes. */
  OptionalInt ended() throws InterruptedException {
    return process.waitFor(2, TimeUnit.MINUTES)
        ? OptionalInt.of(process.exitValue())
        : OptionalInt.empty();
  }

  boolean isAlive() {
    return process.isAlive();
  }

  String errors() throws IOException {
    return Files.readString(errors);
  }

  /** SIGKILL: nothing in the process survives it. */
  void kill() throws InterruptedException {
    process.destroyForcibly();
    process.waitFor(10, TimeUnit.SECONDS);
  }

  /** SIGTERM; false when it has not ended within the bound. */
  boolean terminate() throws InterruptedException {
    process.destroy();
    return process.waitFor(15, TimeUnit.SECONDS);
  }

  @Override
  public void close() throws InterruptedException {
    if (process.isAlive() && !terminate()) {
      kill();
    }
  }
}
