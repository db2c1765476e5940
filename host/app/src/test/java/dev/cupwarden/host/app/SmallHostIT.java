package dev.cupwarden.host.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.BrokerProcess;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.File;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The packaged host beside a broker, with the very options of Java that its package gives it. From
 * the folders of a build it takes less memory than from its jar.
 */
class SmallHostIT {
  private static final Path JAR = Path.of("target", "cupwarden-host.jar");
  private static final Path OPTIONS = Path.of("src", "deb", "java-broker-beside");
  private static final String PASSWORD = "twelve or more";
  private static final long LIMIT_S = 90;
  private static final int SIGN_INS = 5;
  private final HttpClient http = HttpClient.newHttpClient();
  @TempDir Path temporary;

  @Test
  void itStartsShowsItsPageAndSignsPeopleIn() throws Exception {
    Path data = temporary.resolve("data");
    int port = LoopbackPort.anyFree("the page", "--port").number();
    try (BrokerProcess broker = BrokerProcess.start(Files.createDirectory(data))) {
      addGrower(data);
      Path out = temporary.resolve("out.txt");
      Process host =
          program("run", "--data", data.toString(), "--port", "" + port, "--broker", broker.uri())
              .redirectErrorStream(true)
              .redirectOutput(out.toFile())
              .start();
      try {
        awaitPage(host, out);
        URI page = URI.create("http://127.0.0.1:" + port + "/");
        assertTrue(get(page.resolve("js/main.js")).contains("import"));
        assertTrue(get(page.resolve("sign-in/")).contains("<form"));
        for (int time = 0; time < SIGN_INS; time++) {
          assertEquals(200, signIn(page), Files.readString(out));
        }
      } finally {
        host.destroy();
        assertTrue(host.waitFor(LIMIT_S, TimeUnit.SECONDS), "the host does not end");
      }
    }
  }

  private static ProcessBuilder program(String... command) {
    List<String> line = new ArrayList<>();
    line.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    line.addAll(List.of("@" + OPTIONS, "-jar", JAR.toString()));
    line.addAll(List.of(command));
    return new ProcessBuilder(line);
  }

  private void addGrower(Path data) throws Exception {
    File password = Files.writeString(temporary.resolve("password"), PASSWORD + "\n").toFile();
    Process adding =
        program("user", "add", "--data", data.toString(), "--role", "act", "grower")
            .redirectInput(password)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    assertTrue(adding.waitFor(LIMIT_S, TimeUnit.SECONDS));
    assertEquals(0, adding.exitValue());
  }

  private static void awaitPage(Process host, Path out) {
    await("the page")
        .atMost(Duration.ofSeconds(LIMIT_S))
        .failFast(() -> assertTrue(host.isAlive(), Files.readString(out)))
        .until(() -> Files.readString(out).contains("The page is at"));
  }

  private String get(URI address) throws IOException, InterruptedException {
    HttpResponse<String> answer =
        http.send(HttpRequest.newBuilder(address).build(), HttpResponse.BodyHandlers.ofString());
    assertEquals(200, answer.statusCode(), address.toString());
    return answer.body();
  }

  private int signIn(URI page) throws IOException, InterruptedException {
    String body = "{\"name\":\"grower\",\"password\":\"" + PASSWORD + "\"}";
    HttpRequest request =
        HttpRequest.newBuilder(page.resolve("api/session"))
            .header("Content-Type", "application/json")
            .header("Origin", page.toString().replaceAll("/$", ""))
            .POST(HttpRequest.BodyPublishers.ofString(body))
            .build();
    return http.send(request, HttpResponse.BodyHandlers.ofString()).statusCode();
  }
}
