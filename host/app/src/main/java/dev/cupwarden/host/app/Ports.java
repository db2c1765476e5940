package dev.cupwarden.host.app;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.broker.LoopbackPort;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Where the page is shown, and how a port that is none is told. */
final class Ports {
  static final int USUAL_BROKER = 1883;
  private static final int USUAL_PAGE = 8470;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "Port of the page on 127.0.0.1 (default: " + USUAL_PAGE + ").")
  private int page = USUAL_PAGE;

  LoopbackPort page() {
    return checked(page, "the page", "--port");
  }

  LoopbackPort broker(int number) {
    return checked(number, "the broker", "--broker-port");
  }

  private LoopbackPort checked(int number, String purpose, String option) {
    try {
      return new LoopbackPort(number, purpose, option);
    } catch (HostException outOfRange) {
      throw new ParameterException(spec.commandLine(), outOfRange.getMessage(), outOfRange);
    }
  }
}
