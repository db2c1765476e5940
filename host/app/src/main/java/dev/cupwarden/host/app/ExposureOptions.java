package dev.cupwarden.host.app;

import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.BrokerExposure;
import dev.cupwarden.host.web.Exposure;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What other machines may reach: the page, the broker inside the host, or both. */
final class ExposureOptions {
  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--listen",
      paramLabel = "ADDRESS",
      description = "Show the page at this address instead of 127.0.0.1; everybody signs in.")
  private String page;

  @Option(
      names = "--broker-listen",
      paramLabel = "ADDRESS[:PORT]",
      description = {
        "Let benches on other machines come to the broker inside the host here (port 8883 unless"
            + " said otherwise), each with its name and key (user bench), over TLS."
      })
  private String broker;

  @Option(
      names = "--tls-keystore",
      paramLabel = "FILE",
      description = "PKCS #12 file with certificate and key, for both.")
  private Path keyStore;

  @Option(
      names = "--tls-password-file",
      paramLabel = "FILE",
      description = "Holds the keystore's password.")
  private Path passwordFile;

  @Option(
      names = "--plain-http",
      description = "The page without HTTPS: only behind something that encrypts.")
  private boolean plainHttp;

  @Option(
      names = "--plain-mqtt",
      description = "The broker without TLS: only in a network that is yours alone.")
  private boolean plainMqtt;

  boolean isBrokerOpen() {
    return broker != null;
  }

  HostSettings open(HostSettings settings) {
    require((keyStore == null) == (passwordFile == null), "--tls-keystore", "--tls-password-file");
    require(keyStore == null || page != null || broker != null, "--tls-keystore", "--listen");
    require(!plainHttp || page != null, "--plain-http", "--listen");
    require(!plainMqtt || broker != null, "--plain-mqtt", "--broker-listen");
    HostSettings opened = settings;
    if (page != null) {
      Optional<Exposure.Tls> tls =
          Optional.ofNullable(keyStore).map(store -> new Exposure.Tls(store, passwordFile));
      opened =
          opened.exposed(Exposure.checked(page, plainHttp ? Optional.empty() : tls, plainHttp));
    }
    if (broker != null) {
      Optional<BrokerExposure.BrokerTls> tls =
          Optional.ofNullable(keyStore)
              .map(store -> new BrokerExposure.BrokerTls(store, passwordFile));
      opened =
          opened.brokerExposed(
              BrokerExposure.checked(broker, plainMqtt ? Optional.empty() : tls, plainMqtt));
    }
    return opened;
  }

  private void require(boolean so, String option, String other) {
    if (!so) {
      throw new ParameterException(
          spec.commandLine(), option + " goes together with " + other + ".");
    }
  }
}
