package dev.cupwarden.host;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.broker.LoopbackPort;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Assumptions;

/** Debian's mosquitto as a process of its own, on a free port of loopback; it can be killed. */
public final class BrokerProcess implements AutoCloseable {
  private static final Path PROGRAM = Path.of("/usr/sbin/mosquitto");
  private static final Duration LIMIT = Duration.ofSeconds(20);

  private final Path folder;
  private final int port;
  private Process process;

  private BrokerProcess(Path folder, int port) {
    this.folder = folder;
    this.port = port;
  }

  /** Skips the test, and says so, where it is not installed. */
  public static BrokerProcess start(Path folder) throws IOException, InterruptedException {
    Assumptions.assumeTrue(
        Files.isExecutable(PROGRAM), PROGRAM + " is not there: apt-get install mosquitto");
    int port = LoopbackPort.anyFree("the other broker", "--broker").number();
    BrokerProcess broker = new BrokerProcess(folder, port);
    Files.writeString(
        folder.resolve("broker.conf"),
        "listener "
            + port
            + " 127.0.0.1\nallow_anonymous true\npersistence false\n"
            + "max_inflight_messages 1000\nmax_queued_messages 100000\n");
    broker.run();
    return broker;
  }

  public String uri() {
    return "tcp://127.0.0.1:" + port;
  }

  /** Starts it, the first time or after it was killed. */
  public void run() throws IOException, InterruptedException {
    process =
        new ProcessBuilder(
                List.of(PROGRAM.toString(), "-c", folder.resolve("broker.conf").toString()))
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("broker.log").toFile())
            .start();
    await("the broker answers")
        .pollInterval(Duration.ofMillis(20))
        .atMost(LIMIT)
        .failFast(
            () -> assertTrue(process.isAlive(), Files.readString(folder.resolve("broker.log"))))
        .until(this::answers);
  }

  private boolean answers() {
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress("127.0.0.1", port), 200);
      return true;
    } catch (IOException notYet) {
      return false;
    }
  }

  /** As a power cut would. */
  public void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  @Override
  public void close() throws InterruptedException {
    kill();
  }
}
