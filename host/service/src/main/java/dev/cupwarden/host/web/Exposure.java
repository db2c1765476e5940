package dev.cupwarden.host.web;

import dev.cupwarden.host.HostException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The page on an address that other machines reach: then everybody signs in, and the connection is
 * encrypted unless a person has said outright that it need not be.
 *
 * @param address to listen at
 * @param tls empty only for plain HTTP, which is then somebody's explicit wish
 */
public record Exposure(String address, Optional<Tls> tls) {
  /**
   * A certificate with its key.
   *
   * @param keyStore PKCS #12
   * @param passwordFile its password on the first line
   */
  public record Tls(Path keyStore, Path passwordFile) {}

  /**
   * Checks what a person asked for.
   *
   * @throws HostException unless there is TLS, or plain HTTP was asked for by name
   */
  public static Exposure checked(String address, Optional<Tls> tls, boolean plainHttp) {
    if (tls.isEmpty() && !plainHttp) {
      throw new HostException(
          "--listen "
              + address
              + ": passwords would cross the network in the clear. Give --tls-keystore and"
              + " --tls-password-file, or say --plain-http if something in front of it encrypts.");
    }
    return new Exposure(address, tls);
  }
}
