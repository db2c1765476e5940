package dev.cupwarden.host.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.awaitility.core.ConditionTimeoutException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The packaged demo, as a person starts and ends it. */
class DemoIT {
  private static final Path JAR = Path.of("target", "cupwarden-host.jar");
  private static final Duration START_LIMIT = Duration.ofSeconds(90);
  private static final Duration DOSE_LIMIT = Duration.ofSeconds(60);
  private static final long END_LIMIT_S = 20;
  private static final int INTERRUPTED = 130;
  private final HttpClient http = HttpClient.newHttpClient();
  @TempDir Path temporary;

  @Test
  void theDemoWatersItsFirstCupWithinAMinuteAndEndsCleanlyOnInterrupt() throws Exception {
    LoopbackPort port = LoopbackPort.anyFree("the page", "--port");
    Path out = temporary.resolve("out.txt");
    Path err = temporary.resolve("err.txt");
    Path tmp = Files.createDirectory(temporary.resolve("tmp"));
    // A shell that runs this build in the background would have interrupts ignored from here on.
    Process demo =
        new ProcessBuilder(
                "env",
                "--default-signal=INT",
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Djava.io.tmpdir=" + tmp,
                "-jar",
                JAR.toString(),
                "demo",
                "--port",
                Integer.toString(port.number()))
            .redirectOutput(out.toFile())
            .redirectError(err.toFile())
            .start();
    try {
      String address = "http://127.0.0.1:" + port.number() + "/";
      await("the page").atMost(START_LIMIT).until(() -> Files.readString(out).contains(address));
      JsonNode cups =
          await("the cups")
              .atMost(START_LIMIT)
              .until(
                  () -> json(address + "api/benches/back-room/cups"),
                  answer -> answer.size() == 12);
      assertEquals("A1", cups.get(0).get("cup").asText());
      JsonNode doses =
          await("a dose")
              .atMost(DOSE_LIMIT)
              .until(
                  () -> json(address + "api/benches/back-room/events?kind=dose"),
                  answer -> answer.size() > 0);
      assertTrue(doses.get(0).at("/data/plain_ml").asDouble() > 0);
      assertTrue(text(address).contains("<html"));

      interrupt(demo);
      assertTrue(demo.waitFor(END_LIMIT_S, TimeUnit.SECONDS), "still running after an interrupt");
      assertTrue(Set.of(0, INTERRUPTED).contains(demo.exitValue()), "exit " + demo.exitValue());
      assertTrue(Files.readString(out).contains("Ended: "), Files.readString(out));
      try (Stream<Path> left = Files.list(tmp)) {
        List<String> ours =
            left.map(path -> path.getFileName().toString())
                .filter(name -> name.startsWith("cupwarden"))
                .toList();
        assertEquals(List.of(), ours);
      }
      port.requireFree();
    } catch (AssertionError | ConditionTimeoutException failed) {
      throw new AssertionError(failed.getMessage() + "\n" + Files.readString(err), failed);
    } finally {
      demo.destroyForcibly();
    }
  }

  private static void interrupt(Process process) throws IOException, InterruptedException {
    Process kill = new ProcessBuilder("kill", "-INT", Long.toString(process.pid())).start();
    assertEquals(0, kill.waitFor());
  }

  private String text(String address) throws IOException, InterruptedException {
    return http.send(
            HttpRequest.newBuilder(URI.create(address)).build(),
            HttpResponse.BodyHandlers.ofString())
        .body();
  }

  private JsonNode json(String address) throws IOException, InterruptedException {
    return Json.MAPPER.readTree(text(address));
  }
}
