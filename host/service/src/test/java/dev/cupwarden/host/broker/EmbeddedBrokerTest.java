package dev.cupwarden.host.broker;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.WireClient;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.BlockingQueue;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EmbeddedBrokerTest {
  @TempDir Path folder;

  @Test
  void carriesARetainedMessageAndLeavesNoFolderBehind() throws Exception {
    Path work = folder.resolve("broker");
    try (EmbeddedBroker broker =
            EmbeddedBroker.start(LoopbackPort.anyFree("the broker", "--broker-port"), work);
        WireClient client = new WireClient(broker.uri())) {
      client.publish("a/b", "hello".getBytes(StandardCharsets.UTF_8), true);
      BlockingQueue<WireClient.Heard> heard = client.listen("a/#");
      assertEquals("hello", WireClient.next(heard).payload());
    }
    assertFalse(Files.exists(work));
  }

  @Test
  void aTakenPortIsRefusedWithASentence() throws IOException {
    try (ServerSocket other = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      LoopbackPort port = new LoopbackPort(other.getLocalPort(), "the broker", "--broker-port");
      HostException refused =
          assertThrows(HostException.class, () -> EmbeddedBroker.start(port, folder.resolve("b")));
      assertTrue(refused.getMessage().contains("is taken"), refused.getMessage());
      assertTrue(refused.getMessage().contains("--broker-port"), refused.getMessage());
    }
  }
}
