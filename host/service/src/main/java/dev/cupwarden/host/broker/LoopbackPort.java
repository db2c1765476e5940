package dev.cupwarden.host.broker;

import dev.cupwarden.host.HostException;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.util.Locale;

/**
 * A TCP port of this machine alone, 127.0.0.1.
 *
 * @param number 1 to 65535
 * @param purpose who wants it, as it reads in a sentence: {@code the page}
 * @param option how a person chooses another: {@code --port}
 */
public record LoopbackPort(int number, String purpose, String option) {
  public static final String HOST = "127.0.0.1";

  public LoopbackPort {
    if (number < 1 || number > 65_535) {
      throw new HostException(
          String.format(
              Locale.ROOT,
              "Port %d for %s is out of range: %s takes 1 to 65535.",
              number,
              purpose,
              option));
    }
  }

  /**
   * Finds out early and in words whether somebody else has the port; who listens there later still
   * has to cope with a race.
   *
   * @throws HostException if the port is taken
   */
  public void requireFree() {
    try (ServerSocket probe = new ServerSocket()) {
      probe.setReuseAddress(true);
      probe.bind(new InetSocketAddress(InetAddress.getByName(HOST), number));
    } catch (IOException taken) {
      throw taken(taken);
    }
  }

  /** The one sentence for a port that cannot be had. */
  public HostException taken(Throwable cause) {
    return new HostException(
        String.format(
            Locale.ROOT,
            "Port %d on %s, wanted for %s, is taken by another program: stop that one or choose"
                + " another port with %s.",
            number,
            HOST,
            purpose,
            option),
        cause);
  }

  /** An unused port at the time of asking, for tests and for a demo that does not mind. */
  public static LoopbackPort anyFree(String purpose, String option) {
    try (ServerSocket probe = new ServerSocket(0, 1, InetAddress.getByName(HOST))) {
      return new LoopbackPort(probe.getLocalPort(), purpose, option);
    } catch (IOException none) {
      throw new HostException("No free port on " + HOST + " for " + purpose + ".", none);
    }
  }
}
