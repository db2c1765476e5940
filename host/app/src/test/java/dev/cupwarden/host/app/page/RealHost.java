package dev.cupwarden.host.app.page;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import org.eclipse.paho.mqttv5.common.MqttException;

/** Broker, store and page on this machine, with a canned bench that has told all of itself. */
final class RealHost implements AutoCloseable {
  final BenchOnTheWire wire;
  private final Host host;

  RealHost(Path data, StubHost bench) throws Exception {
    host =
        Host.start(
            HostSettings.local(
                data,
                LoopbackPort.anyFree("the page", "--port"),
                LoopbackPort.anyFree("the broker", "--broker-port")));
    wire = new BenchOnTheWire(host.brokerUri());
    wire.tellAllOf(bench);
  }

  String address() {
    return host.address();
  }

  /** What the API answers. */
  JsonNode json(String path) throws IOException, InterruptedException {
    return Json.MAPPER.readTree(bytes(path));
  }

  byte[] bytes(String path) throws IOException, InterruptedException {
    HttpRequest ask = HttpRequest.newBuilder(URI.create(address() + path)).build();
    return HttpClient.newHttpClient().send(ask, HttpResponse.BodyHandlers.ofByteArray()).body();
  }

  @Override
  public void close() throws MqttException {
    wire.close();
    host.close();
  }
}
