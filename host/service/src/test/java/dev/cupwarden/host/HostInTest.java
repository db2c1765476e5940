package dev.cupwarden.host;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;

/** A real host on free ports, with a bench's side of the wire and a reader's side of the page. */
public final class HostInTest implements AutoCloseable {
  private static final Duration LIMIT = Duration.ofSeconds(20);
  private static final long PAUSE_MS = 20;
  private final HttpClient http = HttpClient.newHttpClient();
  private final Host host;
  private final WireClient bench;

  public HostInTest(Path data) throws InterruptedException {
    this(
        HostSettings.local(
            data,
            LoopbackPort.anyFree("the page", "--port"),
            LoopbackPort.anyFree("the broker", "--broker-port")));
  }

  public HostInTest(HostSettings settings) throws InterruptedException {
    host = Host.start(settings);
    bench = new WireClient(host.brokerUri());
  }

  public Host host() {
    return host;
  }

  public WireClient bench() {
    return bench;
  }

  public URI uri(String path) {
    return URI.create(host.address()).resolve(path);
  }

  public HttpResponse<String> send(HttpRequest request) throws IOException, InterruptedException {
    return http.send(request, HttpResponse.BodyHandlers.ofString());
  }

  public HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return send(HttpRequest.newBuilder(uri(path)).build());
  }

  public JsonNode json(String path) throws IOException, InterruptedException {
    return Json.MAPPER.readTree(get(path).body());
  }

  public HttpResponse<String> post(String path, String body)
      throws IOException, InterruptedException {
    return send(
        HttpRequest.newBuilder(uri(path))
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(body))
            .build());
  }

  /** The answer as soon as it is as expected; the last one seen if it never is. */
  public JsonNode await(String path, Predicate<JsonNode> expected)
      throws IOException, InterruptedException {
    long end = System.nanoTime() + LIMIT.toNanos();
    JsonNode answer = json(path);
    while (!expected.test(answer) && System.nanoTime() < end) {
      TimeUnit.MILLISECONDS.sleep(PAUSE_MS);
      answer = json(path);
    }
    if (!expected.test(answer)) {
      throw new AssertionError(path + " never became as expected; at last: " + answer);
    }
    return answer;
  }

  @Override
  public void close() {
    bench.close();
    host.close();
  }
}
