package dev.cupwarden.app.link;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.TimeUnit;

/** Debian's broker as a process of the test's own, on a free loopback port. */
public final class RealBroker implements AutoCloseable {
  private final Path folder;
  private final int port;
  private Process process;

  private RealBroker(Path folder, int port) {
    this.folder = folder;
    this.port = port;
  }

  public static RealBroker start(Path folder) throws IOException {
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      RealBroker broker = new RealBroker(folder, free.getLocalPort());
      free.close();
      broker.startAgain();
      return broker;
    }
  }

  /** On the same port and with the sessions it had saved, as after a restart of its machine. */
  public void startAgain() throws IOException {
    Path config = folder.resolve("broker.conf");
    Files.writeString(
        config,
        "listener "
            + port
            + " 127.0.0.1\nallow_anonymous true\npersistence true\npersistence_location "
            + folder
            + "/\nlog_dest none\nuser root\n");
    process =
        new ProcessBuilder("/usr/sbin/mosquitto", "-c", config.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("broker.log").toFile())
            .start();
    await("the broker listens").atMost(Duration.ofSeconds(10)).until(this::listens);
  }

  private boolean listens() {
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 200);
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  public URI uri() {
    return URI.create("tcp://127.0.0.1:" + port);
  }

  public int port() {
    return port;
  }

  /** As if its power were cut. */
  public void kill() throws InterruptedException {
    process.destroyForcibly();
    process.waitFor(10, TimeUnit.SECONDS);
  }

  @Override
  public void close() throws InterruptedException {
    process.destroy();
    if (!process.waitFor(5, TimeUnit.SECONDS)) {
      kill();
    }
  }
}
