package dev.cupwarden.host;

import dev.cupwarden.host.broker.LoopbackPort;
import java.nio.file.Path;

/** With the broker inside the host. */
class HostTest extends HostStoriesTest {
  @Override
  HostSettings settings(Path folder) {
    return HostSettings.local(
        folder,
        LoopbackPort.anyFree("the page", "--port"),
        LoopbackPort.anyFree("the broker", "--broker-port"));
  }
}
