package dev.cupwarden.host.watch;

import dev.cupwarden.host.broker.HostMqttLink;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A second connection to the broker while the store takes nothing: over the first nothing more
 * comes then, since nothing that has come can be acknowledged. What is heard here is only listened
 * to; the broker keeps it for the first connection all the same.
 */
public final class StandbyMqttLink implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(StandbyMqttLink.class);
  private final Supplier<HostMqttLink> opens;
  private final Runnable begins;
  private HostMqttLink link;

  /**
   * @param opens makes the connection
   * @param begins is run when listening begins, for what came just before
   */
  public StandbyMqttLink(Supplier<HostMqttLink> opens, Runnable begins) {
    this.opens = opens;
    this.begins = begins;
  }

  /** What the connection hands over. */
  public static HostMqttLink.Receiver to(Consumer<Delivery> hears) {
    return new HostMqttLink.Receiver() {
      @Override
      public void receive(Delivery delivery) {
        delivery.acknowledge().run();
        hears.accept(delivery);
      }

      @Override
      public void connected() {}
    };
  }

  /** Listens, or no longer. */
  public synchronized void listen(boolean wanted) {
    if (wanted && link == null) {
      LOG.warn("The store takes nothing: alerts and beats are heard by another connection");
      link = opens.get();
      begins.run();
    } else if (!wanted && link != null) {
      LOG.info("The store takes what comes again");
      close();
    }
  }

  @Override
  public synchronized void close() {
    if (link != null) {
      link.close();
      link = null;
    }
  }
}
