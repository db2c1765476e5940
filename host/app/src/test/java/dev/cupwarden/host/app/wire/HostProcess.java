package dev.cupwarden.host.app.wire;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.broker.LoopbackPort;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** The host's program as a process of its own, which can be killed. */
public final class HostProcess implements AutoCloseable {
  private static final Duration LIMIT = Duration.ofSeconds(120);
  private final Process process;
  private final Path out;

  private HostProcess(Process process, Path out) {
    this.process = process;
    this.out = out;
  }

  /** What it has printed. */
  public String said() throws IOException {
    return Files.readString(out);
  }

  /**
   * Runs it and returns once it says where its page is.
   *
   * @param data its folder
   * @param options of {@code run}, besides data and port
   */
  public static HostProcess run(Path data, String... options)
      throws IOException, InterruptedException {
    return run(List.of("-Xmx128m"), Map.of(), data, options);
  }

  /** Likewise, with options for Java and its surroundings. */
  public static HostProcess run(
      List<String> java, Map<String, String> environment, Path data, String... options)
      throws IOException, InterruptedException {
    Files.createDirectories(data);
    Path out = data.resolve("out.log");
    List<String> line = new ArrayList<>();
    line.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    line.addAll(java);
    line.addAll(
        List.of(
            "-cp",
            System.getProperty("java.class.path"),
            "dev.cupwarden.host.app.HostCommand",
            "run",
            "--data",
            data.toString(),
            "--port",
            Integer.toString(LoopbackPort.anyFree("the page", "--port").number())));
    line.addAll(List.of(options));
    ProcessBuilder builder =
        new ProcessBuilder(line).redirectErrorStream(true).redirectOutput(out.toFile());
    builder.environment().put("CUPWARDEN_DATABASE_PASSWORD", "none");
    builder.environment().putAll(environment);
    Process process = builder.start();
    HostProcess host = new HostProcess(process, out);
    try {
      await("the page")
          .atMost(LIMIT)
          .failFast(() -> assertTrue(process.isAlive(), host.said()))
          .until(() -> host.said().contains("The page is at"));
    } catch (RuntimeException | Error notUp) {
      process.destroyForcibly();
      throw notUp;
    }
    return host;
  }

  long pid() {
    return process.pid();
  }

  /** Resident memory now, and the most there was, in MiB; what Linux tells of the process. */
  double[] residentMib() throws IOException {
    double[] mib = new double[2];
    for (String each :
        Files.readAllLines(Path.of("/proc", Long.toString(process.pid()), "status"))) {
      String[] parts = each.split("\\s+");
      mib[0] = parts[0].equals("VmRSS:") ? Long.parseLong(parts[1]) / 1024.0 : mib[0];
      mib[1] = parts[0].equals("VmHWM:") ? Long.parseLong(parts[1]) / 1024.0 : mib[1];
    }
    return mib;
  }

  /** As a power cut would. */
  public void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  @Override
  public void close() throws InterruptedException {
    kill();
  }
}
