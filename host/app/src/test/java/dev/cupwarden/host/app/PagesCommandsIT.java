package dev.cupwarden.host.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.house.SourceTree;
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
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The commands of the pages, typed one after another as they stand there, by somebody who has made
 * the files that the page tells of. Another are only ports and addresses, the time that is asked
 * about, and the bench: a simulated one. What needs the hardware is marked on the page; the line
 * that runs the demo is {@link DemoIT}'s.
 */
class PagesCommandsIT {
  private static final Path README = SourceTree.ROOT.resolve("README.md");
  private static final Pattern COMMAND = Pattern.compile("(?m)^ {4,}(\\S.*\\.jar .*|keytool .*)$");
  private static final Pattern CODE = Pattern.compile("`(Date,A1[^`]+|\\d{4}-[^`]+,[^`]+)`");
  private static final List<String> BUILT = List.of("controller/app/target", "host/app/target");
  private static final String WIRED =
      "controller/app/src/main/resources/dev/cupwarden/app/back-room.yaml";
  private static final String HANDS_ON = " # hands-on hardware";
  private static final String DEMO = "S=$(command -v sudo)";

  /** A rehearsal takes half a minute, and ten times as long where others work beside it. */
  private static final Duration LIMIT = Duration.ofSeconds(300);

  private static final int WEIGHTS = 30;

  private final HttpClient http = HttpClient.newHttpClient();
  private final int page = LoopbackPort.anyFree("the page", "--port").number();
  private final int broker = LoopbackPort.anyFree("the broker", "--broker-port").number();
  private final int benches = LoopbackPort.anyFree("the benches", "--broker-listen").number();
  private final List<Process> running = new ArrayList<>();
  private Process host;
  private Instant begun;
  @TempDir Path folder;

  @BeforeEach
  void thePrograms() throws IOException {
    for (String built : BUILT) {
      Path here = folder.resolve(built);
      Files.createDirectories(here.getParent());
      Files.createSymbolicLink(here, SourceTree.ROOT.resolve(built));
    }
    Files.writeString(folder.resolve("password"), "twelve or more\n");
  }

  @AfterEach
  void end() throws Exception {
    for (Process process : running) {
      process.destroy();
      assertTrue(process.waitFor(LIMIT.toSeconds(), TimeUnit.SECONDS), "it does not end");
    }
    for (String built : BUILT) {
      Files.delete(folder.resolve(built));
    }
  }

  @Test
  void thoseOfTheReadme() throws Exception {
    String text = SourceTree.text(README);
    Files.writeString(folder.resolve("bench.yaml"), SourceTree.firstBench());
    List<String> weights = CODE.matcher(text).results().map(found -> found.group(1)).toList();
    assertEquals(2, weights.size(), "a header and a row");
    Files.write(folder.resolve("weights.csv"), weights);
    for (String line : commands(README)) {
      if (line.contains("controller.jar run")) {
        startController(line);
      } else if (line.contains("host.jar run")) {
        startHost(line);
      } else {
        toTheEnd(line);
      }
    }
    assertTrue(Files.readString(folder.resolve("a1.svg")).contains("<svg"));
  }

  @Test
  void thoseOfTheOtherPages() throws Exception {
    List<Path> pages =
        SourceTree.files(".md").stream().filter(path -> !path.equals(README)).toList();
    int typed = 0;
    for (Path one : pages) {
      Path situation = one.resolveSibling("first-pass-then-soak-then-hold");
      if (Files.exists(situation)) {
        for (String file : List.of("bench.yaml", "in.jsonl")) {
          Files.copy(situation.resolve(file), folder.resolve(file));
        }
      }
      for (String line : commands(one)) {
        toTheEnd(line);
        typed++;
      }
    }
    assertTrue(typed > 0);
  }

  private static List<String> commands(Path page) {
    List<String> lines = new ArrayList<>();
    for (MatchResult found : COMMAND.matcher(SourceTree.text(page)).results().toList()) {
      String line = found.group(1);
      if (line.endsWith(HANDS_ON)) {
        assertTrue(line.matches(".*controller\\.jar (check|calibrate|run --watch) .*"), line);
      } else if (!line.startsWith(DEMO)) {
        lines.add(line);
      }
    }
    return lines;
  }

  /** From here on the bench is the wired one that the page names. */
  private void startController(String line) throws Exception {
    Files.copy(SourceTree.ROOT.resolve(WIRED), folder.resolve("wired.yaml"));
    begun = Instant.now();
    String simulated =
        line.replace("bench.yaml", "wired.yaml").replace(":1883", ":" + broker)
            + " --simulate --speed 900";
    start(simulated);
    await("a tick").atMost(LIMIT).until(() -> Files.exists(folder.resolve("journal.db.tick")));
  }

  private void startHost(String line) throws Exception {
    boolean first = host == null;
    if (!first) {
      host.destroy();
      assertTrue(host.waitFor(LIMIT.toSeconds(), TimeUnit.SECONDS), "the host does not end");
    }
    String here =
        line.replace("0.0.0.0", "127.0.0.1").replace("192.168.1.5:8883", "127.0.0.1:" + benches);
    host = start(here + " --port " + page + " --broker-port " + broker);
    await("the page")
        .atMost(LIMIT)
        .until(() -> Files.readString(said(host)).contains("The page is at"));
    if (first) {
      await("weights of A1").atMost(LIMIT).until(() -> weights() >= WEIGHTS);
    }
  }

  private int weights() throws IOException, InterruptedException {
    URI address = URI.create("http://127.0.0.1:" + page + "/api/benches/back-room/cups/A1/weights");
    HttpResponse<String> answer =
        http.send(HttpRequest.newBuilder(address).build(), HttpResponse.BodyHandlers.ofString());
    JsonNode read = Json.MAPPER.readTree(answer.body());
    return read.path("at").size();
  }

  private Path said(Process process) {
    return folder.resolve("said-" + running.indexOf(process));
  }

  private Process start(String line) throws IOException {
    Path out = folder.resolve("said-" + running.size());
    Process process =
        shell("exec " + line).redirectErrorStream(true).redirectOutput(out.toFile()).start();
    running.add(process);
    return process;
  }

  private void toTheEnd(String line) throws Exception {
    Path out = folder.resolve("out.txt");
    String asked = line.replace("2027-02-14T14:00:00Z", "" + asked());
    Process process =
        shell(asked)
            .redirectInput(folder.resolve("password").toFile())
            .redirectErrorStream(true)
            .redirectOutput(out.toFile())
            .start();
    if (!process.waitFor(LIMIT.toSeconds(), TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError(line + ": still runs");
    }
    String said = Files.readString(out);
    assertEquals(0, process.exitValue(), line + "\n" + said);
    assertFalse(line.contains(".jar") && said.isBlank(), line + ": says nothing");
  }

  /** An hour after the bench was started, by its own clock. */
  private Instant asked() {
    return begun == null ? Instant.EPOCH : begun.plus(Duration.ofHours(1));
  }

  private ProcessBuilder shell(String line) {
    ProcessBuilder shell = new ProcessBuilder("sh", "-c", line).directory(folder.toFile());
    String java = Path.of(System.getProperty("java.home"), "bin").toString();
    shell.environment().merge("PATH", java, (path, bin) -> bin + ":" + path);
    return shell;
  }
}
