package dev.cupwarden.app.link;

import java.net.URI;
import java.util.Optional;

/**
 * Which broker, and as whom.
 *
 * @param uri {@code tcp://host:port}, or {@code ssl://host:port} for TLS
 * @param user none where the broker asks for none
 * @param password none where there is no user
 */
public record BrokerSettings(URI uri, Optional<String> user, Optional<String> password) {
  /** A broker that asks for no name. */
  public static BrokerSettings open(URI uri) {
    return new BrokerSettings(uri, Optional.empty(), Optional.empty());
  }

  /** Without the password, for logs. */
  @Override
  public String toString() {
    return uri + user.map(name -> " as " + name).orElse("");
  }
}
