package dev.cupwarden.host.app;

import dev.cupwarden.host.broker.LoopbackPort;
import picocli.CommandLine.Option;

/** Where the page is shown. */
final class Ports {
  static final int USUAL_BROKER = 1883;
  private static final int USUAL_PAGE = 8470;

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "Port of the page on 127.0.0.1 (default: " + USUAL_PAGE + ").")
  private int page = USUAL_PAGE;

  LoopbackPort page() {
    return new LoopbackPort(page, "the page", "--port");
  }

  static LoopbackPort broker(int number) {
    return new LoopbackPort(number, "the broker", "--broker-port");
  }
}
