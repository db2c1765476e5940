package dev.cupwarden.host.broker;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import javax.net.SocketFactory;

/**
 * Sockets that send at once what is written. Without that a small packet waits until the one before
 * it has been acknowledged (Nagle's algorithm, RFC 896), which the other side puts off for some 40
 * ms; MQTT writes whole packets, so that nothing is gained by waiting.
 */
public final class UndelayedSockets extends SocketFactory {
  private final SocketFactory plain = SocketFactory.getDefault();

  private static Socket undelayed(Socket socket) throws IOException {
    socket.setTcpNoDelay(true);
    return socket;
  }

  @Override
  public Socket createSocket() throws IOException {
    return undelayed(plain.createSocket());
  }

  @Override
  public Socket createSocket(String host, int port) throws IOException {
    return undelayed(plain.createSocket(host, port));
  }

  @Override
  public Socket createSocket(String host, int port, InetAddress from, int fromPort)
      throws IOException {
    return undelayed(plain.createSocket(host, port, from, fromPort));
  }

  @Override
  public Socket createSocket(InetAddress host, int port) throws IOException {
    return undelayed(plain.createSocket(host, port));
  }

  @Override
  public Socket createSocket(InetAddress host, int port, InetAddress from, int fromPort)
      throws IOException {
    return undelayed(plain.createSocket(host, port, from, fromPort));
  }
}
