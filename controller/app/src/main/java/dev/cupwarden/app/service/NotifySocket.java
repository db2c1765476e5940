package dev.cupwarden.app.service;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * The service manager's notification socket (sd_notify(3)): a datagram of lines such as {@code
 * WATCHDOG=1} to the unix socket that {@code NOTIFY_SOCKET} names.
 *
 * <p>Java 17 knows unix sockets only as streams, so the three calls go to the C library by way of
 * JNA, which the I2C plug-in brings along anyway. A child process (systemd-notify) would need
 * {@code NotifyAccess=all}, a fork at each sign of life, and memory when there is least of it; a
 * library of sockets would be a second native part for three calls.
 */
public final class NotifySocket {
  private static final int AF_UNIX = 1;
  private static final int SOCK_DGRAM_CLOEXEC = 2 | 0x80000;

  /** A manager that does not read must not hold up who feeds the board's own watchdog. */
  private static final int MSG_DONTWAIT = 0x40;

  /** {@code sun_path} of Linux's sockaddr_un is 108 bytes long. */
  private static final int LONGEST_PATH = 108;

  /** The C library's calls. */
  interface Libc extends Library {
    int socket(int domain, int type, int protocol) throws LastErrorException;

    long sendto(int fd, byte[] data, long length, int flags, byte[] address, int addressLength)
        throws LastErrorException;

    int close(int fd) throws LastErrorException;
  }

  private final byte[] address;

  private NotifySocket(byte[] address) {
    this.address = address;
  }

  /**
   * The socket of that name, an {@code @} standing for the abstract name space.
   *
   * @return none where the name is missing, empty or too long for a socket
   */
  public static Optional<NotifySocket> of(String name) {
    if (name == null || name.isEmpty()) {
      return Optional.empty();
    }
    byte[] path = name.getBytes(StandardCharsets.UTF_8);
    if (path.length >= LONGEST_PATH) {
      return Optional.empty();
    }
    if (path[0] == '@') {
      path[0] = 0;
    }
    return Optional.of(
        new NotifySocket(
            ByteBuffer.allocate(2 + path.length)
                .order(ByteOrder.nativeOrder())
                .putShort((short) AF_UNIX)
                .put(path)
                .array()));
  }

  /** The one the service manager gave to this process; none when it runs without one. */
  public static Optional<NotifySocket> ofEnvironment() {
    return of(System.getenv("NOTIFY_SOCKET"));
  }

  /** Sends a state; false when it could not be sent, with nobody listening, say. */
  public boolean send(String state) {
    byte[] data = state.getBytes(StandardCharsets.UTF_8);
    try {
      Libc libc = Native.load("c", Libc.class);
      int socket = libc.socket(AF_UNIX, SOCK_DGRAM_CLOEXEC, 0);
      try {
        return libc.sendto(socket, data, data.length, MSG_DONTWAIT, address, address.length)
            == data.length;
      } finally {
        libc.close(socket);
      }
    } catch (LastErrorException | UnsatisfiedLinkError unheard) {
      return false;
    }
  }
}
