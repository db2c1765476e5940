package dev.cupwarden.host.app;

import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.HostSettings.OtherBroker;
import dev.cupwarden.host.broker.HostMqttLink.Credential;
import java.io.PrintWriter;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code run}: keeps and shows what benches say until it is told to end. */
@Command(
    name = "run",
    description = "Runs the host: broker, store and page.",
    mixinStandardHelpOptions = true)
final class RunHostCommand implements Callable<Integer> {
  private static final Set<String> SCHEMES = Set.of("tcp", "ssl");

  @Spec private CommandSpec spec;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "DIR",
      description = "What is received is kept in this folder; made if missing.")
  private Path data;

  @Mixin private Ports ports;

  @ArgGroup private BrokerChoice broker = new BrokerChoice();

  /** The broker inside the host, or one elsewhere: not both. */
  private static final class BrokerChoice {
    @Option(
        names = "--broker-port",
        paramLabel = "N",
        description = "Port of the broker inside the host, on 127.0.0.1 (default: 1883).")
    private int port = Ports.USUAL_BROKER;

    @Option(
        names = "--broker",
        paramLabel = "URL",
        description = "Another MQTT 5 broker instead, such as tcp://192.168.1.5:1883.")
    private String other;
  }

  @Option(
      names = "--shared",
      description =
          "Share the load with other hosts: same --broker, same PostgreSQL by --database.")
  private boolean shared;

  @Mixin private StoreOptions keep;

  @Mixin private ExposureOptions exposure;

  @Option(
      names = "--notices",
      paramLabel = "FILE",
      description = "Tell people of alerts by e-mail or webhook as this YAML file says.")
  private Path notices;

  @Override
  public Integer call() throws InterruptedException {
    HostSettings settings = settings();
    try (CloseOnExit closing = new CloseOnExit()) {
      Host host = closing.closes(Host.start(settings));
      PrintWriter out = spec.commandLine().getOut();
      out.printf(
          "The page is at %s, benches connect to %s; Ctrl-C ends the host.%n",
          host.address(), host.benchesUri());
      out.flush();
      closing.comes();
    }
    return 0;
  }

  private HostSettings settings() {
    HostSettings settings =
        HostSettings.local(data, ports.page(), ports.broker(broker.port))
            .keeping(keep.keeping(data));
    if (shared && (broker.other == null || !keep.isPostgresql())) {
      throw new ParameterException(
          spec.commandLine(),
          "--shared: hosts can share only a broker elsewhere (--broker) and one PostgreSQL"
              + " (--database postgresql://…).");
    }
    if (broker.other != null) {
      settings = settings.withBroker(new OtherBroker(address(broker.other), credential(), shared));
    }
    if (broker.other != null && exposure.isBrokerOpen()) {
      throw new ParameterException(
          spec.commandLine(), "--broker-listen: there is no broker inside the host with --broker.");
    }
    settings = exposure.open(settings);
    return notices == null ? settings : settings.noticesBy(notices);
  }

  /** From the environment, which other users of this machine cannot read. */
  private static Optional<Credential> credential() {
    String user = System.getenv("CUPWARDEN_BROKER_USER");
    String password = System.getenv("CUPWARDEN_BROKER_PASSWORD");
    return user == null || password == null
        ? Optional.empty()
        : Optional.of(new Credential(user, password));
  }

  private String address(String written) {
    try {
      URI uri = new URI(written);
      if (uri.getHost() != null && SCHEMES.contains(String.valueOf(uri.getScheme()))) {
        return written;
      }
    } catch (URISyntaxException notAnAddress) {
      throw new ParameterException(spec.commandLine(), sentence(written), notAnAddress);
    }
    throw new ParameterException(spec.commandLine(), sentence(written));
  }

  private static String sentence(String written) {
    return "--broker: \"" + written + "\" is not an address such as tcp://host:1883.";
  }
}
