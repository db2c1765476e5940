package dev.cupwarden.host.app.page;

import dev.cupwarden.host.broker.LoopbackPort;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** The demo as it is packaged, in a process of its own. */
final class PackagedDemo implements AutoCloseable {
  static final Path JAR = Path.of("target", "cupwarden-host.jar");
  private static final long END_LIMIT_S = 30;
  private final Process process;
  final String address;

  PackagedDemo() throws IOException {
    LoopbackPort port = LoopbackPort.anyFree("the page", "--port");
    address = "http://127.0.0.1:" + port.number() + "/";
    process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-jar",
                JAR.toString(),
                "demo",
                "--port",
                Integer.toString(port.number()))
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String said =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))
            .readLine();
    if (said == null || !said.contains(address)) {
      process.destroy();
      throw new AssertionError("the demo does not say where its page is, but: " + said);
    }
  }

  @Override
  public void close() throws InterruptedException {
    process.destroy();
    if (!process.waitFor(END_LIMIT_S, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("the demo did not end when told");
    }
  }
}
