package dev.cupwarden.host.users;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Arrays;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Where a try comes from: an IPv4 address, or the /64 of an IPv6 one. One customer is given a whole
 * /64 (RFC 6177, section 2), so each of its addresses may be the same person's.
 */
final class ClientNetwork {
  private static final Logger LOG = LoggerFactory.getLogger(ClientNetwork.class);
  private static final int NETWORK_BYTES = 8;
  private static final int MOST_CHARS = 64;

  private ClientNetwork() {}

  /**
   * As it is counted and stored.
   *
   * @param address a numeric address; anything else stands for itself, and no name is looked up
   */
  static String of(String address) {
    String numeric = address.replaceFirst("%.*", "");
    String asIs = address.substring(0, Math.min(address.length(), MOST_CHARS));
    if (!numeric.contains(":")) {
      return asIs;
    }
    try {
      InetAddress known = InetAddress.getByName("[" + numeric.replaceAll("[\\[\\]]", "") + "]");
      if (known instanceof Inet6Address) {
        byte[] bytes = known.getAddress();
        Arrays.fill(bytes, NETWORK_BYTES, bytes.length, (byte) 0);
        return InetAddress.getByAddress(bytes).getHostAddress() + "/64";
      }
      return known.getHostAddress();
    } catch (UnknownHostException noAddress) {
      LOG.debug("not an address", noAddress);
      return asIs;
    }
  }
}
