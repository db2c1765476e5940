package dev.cupwarden.host;

import dev.cupwarden.host.HostSettings.OtherBroker;
import dev.cupwarden.host.broker.LoopbackPort;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.io.TempDir;

/** The same with a broker that is not ours, where one is installed. */
class OtherBrokerTest extends HostStoriesTest {
  @TempDir static Path brokerFolder;
  private static BrokerProcess broker;

  @Override
  HostSettings settings(Path folder) throws Exception {
    if (broker == null) {
      broker = BrokerProcess.start(brokerFolder);
    }
    return HostSettings.local(
            folder,
            LoopbackPort.anyFree("the page", "--port"),
            LoopbackPort.anyFree("the broker", "--broker-port"))
        .withBroker(new OtherBroker(broker.uri(), Optional.empty(), false));
  }

  @Override
  void afterwards() throws Exception {
    broker.close();
  }
}
