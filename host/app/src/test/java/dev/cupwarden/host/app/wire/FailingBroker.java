package dev.cupwarden.host.app.wire;

import dev.cupwarden.host.BrokerProcess;
import dev.cupwarden.host.broker.BrokerAccess;
import dev.cupwarden.host.broker.EmbeddedBroker;
import dev.cupwarden.host.broker.HostMqttLink.Credential;
import dev.cupwarden.host.broker.LoopbackPort;
import java.nio.file.Path;

/** A broker that can be taken away, with all it holds, and started again on the same port. */
interface FailingBroker extends AutoCloseable {
  String uri();

  void kill() throws Exception;

  void run() throws Exception;

  @Override
  void close() throws Exception;

  static FailingBroker process(Path folder) throws Exception {
    BrokerProcess process = BrokerProcess.start(folder);
    return new FailingBroker() {
      @Override
      public String uri() {
        return process.uri();
      }

      @Override
      public void kill() throws Exception {
        process.kill();
      }

      @Override
      public void run() throws Exception {
        process.run();
      }

      @Override
      public void close() throws Exception {
        process.close();
      }
    };
  }

  /** The one of the host, started by itself; all its sessions are in memory and go with it. */
  static FailingBroker embedded(Path folder) {
    LoopbackPort port = LoopbackPort.anyFree("the broker", "--broker-port");
    BrokerAccess access =
        new BrokerAccess(
            new BrokerAccess.Keys() {
              @Override
              public boolean any() {
                return false;
              }

              @Override
              public boolean matches(String bench, char[] key) {
                return false;
              }
            },
            new Credential("the-host", "its password"));
    return new FailingBroker() {
      private EmbeddedBroker broker = EmbeddedBroker.start(port, folder.resolve("broker"), access);

      @Override
      public String uri() {
        return "tcp://127.0.0.1:" + port.number();
      }

      @Override
      public void kill() {
        broker.close();
        broker = null;
      }

      @Override
      public void run() {
        broker = EmbeddedBroker.start(port, folder.resolve("broker"), access);
      }

      @Override
      public void close() {
        if (broker != null) {
          broker.close();
        }
      }
    };
  }
}
