package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

class HostCommandTest {
  @TempDir Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String... arguments) {
    CommandLine command = HostCommand.commandLine();
    command.setErr(new PrintWriter(err, true));
    command.setOut(new PrintWriter(out));
    return command.execute(arguments);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "fly",
        "run",
        "run --data x --broker-port 1 --broker tcp://h:1",
        "run --data x --broker nonsense",
        "run --data x --broker http://h:1",
        "demo --speed 0",
        "demo --speed NaN",
        "demo --port many",
        "demo --port 70000",
        "run --data x --broker-port 0"
      })
  void badUsageIsToldAndEndsWithTwo(String line) {
    assertEquals(2, run(line.isEmpty() ? new String[0] : line.split(" ")));
    assertTrue(!err.toString().isBlank() && !err.toString().contains("\tat "), err.toString());
  }

  @Test
  void itTellsWhichProgramInWhichVersion() {
    assertEquals(0, run("--version"));
    assertTrue(out.toString().startsWith("cupwarden-host "), out.toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"run", "demo"})
  void aTakenPortIsOneSentenceAndEndsWithOne(String command) throws IOException {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      String port = Integer.toString(taken.getLocalPort());
      assertEquals(1, run(command, "--data", folder.toString(), "--port", port));
      assertEquals(1, err.toString().lines().count(), err.toString());
      assertTrue(err.toString().contains("Port " + port), err.toString());
      assertTrue(err.toString().contains("--port"), err.toString());
    }
  }
}
