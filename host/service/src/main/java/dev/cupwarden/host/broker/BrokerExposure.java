package dev.cupwarden.host.broker;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.PrivateFiles;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The broker inside the host at an address that benches on other machines reach, besides its port
 * on loopback: each comes with its name and key, over TLS unless a person has said outright that
 * the keys may cross the network in the clear.
 *
 * @param address to listen at
 * @param port 1 to 65535
 * @param tls empty only where plain MQTT is somebody's explicit wish
 */
public record BrokerExposure(String address, int port, Optional<BrokerTls> tls) {
  private static final Pattern WRITTEN =
      Pattern.compile("(\\[[0-9A-Fa-f:.%]+]|[^:\\s\\[\\]]+)(?::(\\d{1,5}))?");

  /** Registered for MQTT over TLS. */
  private static final int USUAL_PORT = 8883;

  private static final int LAST_PORT = 65_535;

  /**
   * A certificate with its key.
   *
   * @param keyStore PKCS #12
   * @param passwordFile its password on the first line
   */
  public record BrokerTls(Path keyStore, Path passwordFile) {
    String password() {
      try {
        return PrivateFiles.secretIn(passwordFile).lines().findFirst().orElse("").strip();
      } catch (IOException unreadable) {
        throw new HostException("The file " + passwordFile + " cannot be read.", unreadable);
      }
    }
  }

  /**
   * Reads what a person asked for.
   *
   * @param written {@code ADDRESS} or {@code ADDRESS:PORT}
   * @throws HostException unless it is that, and there is TLS or plain MQTT was asked for by name
   */
  public static BrokerExposure checked(String written, Optional<BrokerTls> tls, boolean plainMqtt) {
    Matcher parts = WRITTEN.matcher(written);
    int port =
        parts.matches() && parts.group(2) != null ? Integer.parseInt(parts.group(2)) : USUAL_PORT;
    if (!parts.matches() || port < 1 || port > LAST_PORT) {
      throw new HostException(
          "--broker-listen: \"" + written + "\" is not an address such as 192.168.1.5:8883.");
    }
    if (tls.isEmpty() && !plainMqtt) {
      throw new HostException(
          "--broker-listen "
              + written
              + ": keys of benches would cross the network in the clear. Give --tls-keystore and"
              + " --tls-password-file, or say --plain-mqtt if that network is yours alone.");
    }
    return new BrokerExposure(parts.group(1).replaceAll("[\\[\\]]", ""), port, tls);
  }

  /** Finds out early whether the address is this machine's and the port to be had. */
  void requireFree() {
    try (ServerSocket probe = new ServerSocket()) {
      probe.setReuseAddress(true);
      probe.bind(new InetSocketAddress(InetAddress.getByName(address), port));
    } catch (IOException refused) {
      throw new HostException(
          "--broker-listen: port "
              + port
              + " at "
              + address
              + " cannot be had: "
              + refused.getMessage()
              + ".",
          refused);
    }
  }

  /** Where benches connect, such as {@code ssl://192.168.1.5:8883}. */
  public String uri() {
    String host = address.contains(":") ? "[" + address + "]" : address;
    return (tls.isPresent() ? "ssl://" : "tcp://") + host + ":" + port;
  }

  /** The listener in the broker's own configuration. */
  String listener() {
    String where = "<port>" + port + "</port><bind-address>" + escaped(address) + "</bind-address>";
    return tls.map(
            own ->
                "<tls-tcp-listener>"
                    + where
                    + "<tls><protocols><protocol>TLSv1.3</protocol><protocol>TLSv1.2</protocol>"
                    + "</protocols><keystore><path>"
                    + escaped(own.keyStore().toAbsolutePath().toString())
                    + "</path><password>"
                    + escaped(own.password())
                    + "</password><private-key-password>"
                    + escaped(own.password())
                    + "</private-key-password></keystore></tls></tls-tcp-listener>")
        .orElse("<tcp-listener>" + where + "</tcp-listener>");
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
