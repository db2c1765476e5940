package dev.cupwarden.host.broker;

import com.hivemq.configuration.service.InternalConfigurations;
import com.hivemq.embedded.EmbeddedExtension;
import com.hivemq.embedded.EmbeddedHiveMQ;
import dev.cupwarden.host.HostException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Stream;

/**
 * An MQTT 5 broker in this process, on loopback, and on another address where that is asked for.
 *
 * <p>Its sessions and queues live in memory: what must last is kept by the controller's outbox
 * until the host says that it has stored it.
 */
public final class EmbeddedBroker implements AutoCloseable {
  private static final long START_LIMIT_S = 60;
  private static final long STOP_LIMIT_S = 10;

  /**
   * Messages under way to the broker at once from one client. The default of 10 makes fast senders
   * fail with "too many publishes in progress".
   */
  private static final int RECEIVE_MAXIMUM = 1000;

  private static final int MAX_PACKET_BYTES = 1_048_576;

  private static final String CONFIGURATION =
      """
      <?xml version="1.0"?>
      <hivemq>
        <listeners>
          <tcp-listener>
            <port>%d</port>
            <bind-address>%s</bind-address>
          </tcp-listener>
          %s
        </listeners>
        <mqtt>
          <receive-maximum>
            <server-receive-maximum>%d</server-receive-maximum>
          </receive-maximum>
          <packets>
            <max-packet-size>%d</max-packet-size>
          </packets>
          <queued-messages>
            <max-queue-size>10000</max-queue-size>
            <strategy>discard</strategy>
          </queued-messages>
        </mqtt>
        <persistence>
          <mode>in-memory</mode>
        </persistence>
        <anonymous-usage-statistics>
          <enabled>false</enabled>
        </anonymous-usage-statistics>
      </hivemq>
      """;

  private final LoopbackPort port;
  private final Path work;
  private final EmbeddedHiveMQ broker;

  private EmbeddedBroker(LoopbackPort port, Path work, EmbeddedHiveMQ broker) {
    this.port = port;
    this.work = work;
    this.broker = broker;
  }

  /**
   * Starts it and returns once it accepts connections.
   *
   * @param work an empty folder or none yet; removed again on close
   * @throws HostException if the port is taken or the broker does not come up
   */
  public static EmbeddedBroker start(LoopbackPort port, Path work, BrokerAccess access) {
    return start(port, Optional.empty(), work, access);
  }

  /**
   * Likewise, with an address for benches on other machines.
   *
   * @throws HostException also if that address or its certificate cannot be used
   */
  public static EmbeddedBroker start(
      LoopbackPort port, Optional<BrokerExposure> exposure, Path work, BrokerAccess access) {
    port.requireFree();
    exposure.ifPresent(BrokerExposure::requireFree);
    widenWindow();
    try {
      Path configuration = Files.createDirectories(work.resolve("conf"));
      write(
          configuration.resolve("config.xml"),
          CONFIGURATION.formatted(
              port.number(),
              LoopbackPort.HOST,
              exposure.map(BrokerExposure::listener).orElse(""),
              RECEIVE_MAXIMUM,
              MAX_PACKET_BYTES));
      EmbeddedHiveMQ broker =
          EmbeddedHiveMQ.builder()
              .withConfigurationFolder(configuration)
              .withDataFolder(Files.createDirectories(work.resolve("data")))
              .withExtensionsFolder(Files.createDirectories(work.resolve("extensions")))
              .withEmbeddedExtension(extension(access))
              .withoutLoggingBootstrap()
              .build();
      broker.start().get(START_LIMIT_S, TimeUnit.SECONDS);
      return new EmbeddedBroker(port, work, broker);
    } catch (IOException | ExecutionException | TimeoutException failed) {
      removeTree(work);
      throw new HostException(
          "The broker inside the host did not start on port " + port.number() + ".", failed);
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new HostException("Stopped while the broker was starting.", stopped);
    }
  }

  /**
   * As many messages under way to a client as it allows. By itself the broker hands out 50 and
   * waits for their acknowledgements: the host would commit to disk for every 50 packs and idle
   * between, which halves what it takes in. There is no setting for it but this one for the whole
   * process.
   */
  private static void widenWindow() {
    InternalConfigurations.MAX_INFLIGHT_WINDOW_SIZE_MESSAGES = HostMqttLink.RECEIVE_MAXIMUM;
    InternalConfigurations.PUBLISH_POLL_BATCH_SIZE = HostMqttLink.RECEIVE_MAXIMUM;
  }

  /** For this user's eyes only, since the keystore's password may stand in it. */
  private static void write(Path file, String text) throws IOException {
    Files.deleteIfExists(file);
    if (file.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      Files.createFile(
          file, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    }
    Files.writeString(file, text, StandardCharsets.UTF_8);
  }

  /** Without an authenticator nobody would be let in, or everybody by accident: this says which. */
  private static EmbeddedExtension extension(BrokerAccess access) {
    return EmbeddedExtension.builder()
        .withId("cupwarden-access")
        .withName("Access")
        .withVersion("1")
        .withExtensionMain(access)
        .build();
  }

  /** Where clients connect: {@code tcp://127.0.0.1:port}. */
  public String uri() {
    return "tcp://" + LoopbackPort.HOST + ":" + port.number();
  }

  @Override
  public void close() {
    try {
      broker.stop().get(STOP_LIMIT_S, TimeUnit.SECONDS);
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
    } catch (ExecutionException | TimeoutException failed) {
      throw new HostException("The broker inside the host did not stop cleanly.", failed);
    } finally {
      removeTree(work);
    }
  }

  private static void removeTree(Path root) {
    if (!Files.exists(root)) {
      return;
    }
    try (Stream<Path> tree = Files.walk(root)) {
      List<Path> deepestFirst = tree.sorted(Comparator.reverseOrder()).toList();
      for (Path each : deepestFirst) {
        Files.deleteIfExists(each);
      }
    } catch (IOException left) {
      throw new HostException("The folder " + root + " could not be removed.", left);
    }
  }
}
