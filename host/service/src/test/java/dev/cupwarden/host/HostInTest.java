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
import java.util.function.Predicate;
import org.awaitility.Awaitility;

/** A real host on free ports, with a bench's side of the wire and a reader's side of the page. */
public final class HostInTest implements AutoCloseable {
  private static final Duration LIMIT = Duration.ofSeconds(20);
  private static final Duration LOOK = Duration.ofMillis(20);
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

  /** The answer as soon as it is as expected; a failure tells the last one. */
  public JsonNode await(String path, Predicate<JsonNode> expected) {
    return Awaitility.await(path)
        .pollInterval(LOOK)
        .atMost(LIMIT)
        .until(() -> json(path), expected);
  }

  @Override
  public void close() {
    bench.close();
    host.close();
  }
}
