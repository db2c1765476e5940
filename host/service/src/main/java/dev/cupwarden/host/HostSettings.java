package dev.cupwarden.host;

import dev.cupwarden.host.broker.BrokerExposure;
import dev.cupwarden.host.broker.HostMqttLink.Credential;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import dev.cupwarden.host.web.Exposure;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * What a host is told to be.
 *
 * @param data folder of the host's own name, and of the store unless that is elsewhere
 * @param page where the page is shown
 * @param broker where the broker inside the host listens; not used where there is another
 * @param otherBroker a broker elsewhere instead
 * @param benchClock the time as the benches have it: this machine's, unless time runs fast
 * @param orderExpiry how long an order is meant, in the benches' time
 * @param keeping where and how long things are kept
 * @param notices file that says whom to tell of alerts, and how
 * @param exposure the page on an address that others reach; empty for this machine alone
 * @param brokerExposure the broker inside the host at an address that benches elsewhere reach
 */
public record HostSettings(
    Path data,
    LoopbackPort page,
    LoopbackPort broker,
    Optional<OtherBroker> otherBroker,
    InstantSource benchClock,
    Duration orderExpiry,
    Keeping keeping,
    Optional<Path> notices,
    Optional<Exposure> exposure,
    Optional<BrokerExposure> brokerExposure) {
  public static final Duration USUAL_ORDER_EXPIRY = Duration.ofMinutes(10);

  /**
   * A broker elsewhere.
   *
   * @param uri {@code tcp://host:port} or {@code ssl://host:port}
   * @param shared whether several hosts share the load, all on one PostgreSQL
   */
  public record OtherBroker(String uri, Optional<Credential> credential, boolean shared) {}

  /** Where and how long things are kept. */
  public record Keeping(Database database, Retention retention) {}

  /** A host of this machine alone, with a broker and a store of its own. */
  public static HostSettings local(Path data, LoopbackPort page, LoopbackPort broker) {
    return new HostSettings(
        data,
        page,
        broker,
        Optional.empty(),
        InstantSource.system(),
        USUAL_ORDER_EXPIRY,
        new Keeping(Database.sqlite(data.resolve("host.db")), Retention.USUAL),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /** The same with another time and expiry, where time runs fast. */
  public HostSettings inTime(InstantSource clock, Duration expiry) {
    return with(
        draft -> {
          draft.benchClock = clock;
          draft.orderExpiry = expiry;
        });
  }

  /** The same with a broker elsewhere. */
  public HostSettings withBroker(OtherBroker other) {
    return with(draft -> draft.otherBroker = Optional.of(other));
  }

  /** The same with things kept elsewhere or for another time. */
  public HostSettings keeping(Keeping other) {
    return with(draft -> draft.keeping = other);
  }

  /** The same, telling people of alerts as the file says. */
  public HostSettings noticesBy(Path file) {
    return with(draft -> draft.notices = Optional.of(file));
  }

  /** The same with the page open to other machines. */
  public HostSettings exposed(Exposure to) {
    return with(draft -> draft.exposure = Optional.of(to));
  }

  /** The same with the broker inside the host open to benches on other machines. */
  public HostSettings brokerExposed(BrokerExposure to) {
    return with(draft -> draft.brokerExposure = Optional.of(to));
  }

  private HostSettings with(Consumer<Draft> change) {
    Draft draft = new Draft();
    change.accept(draft);
    return new HostSettings(
        data,
        page,
        broker,
        draft.otherBroker,
        draft.benchClock,
        draft.orderExpiry,
        draft.keeping,
        draft.notices,
        draft.exposure,
        draft.brokerExposure);
  }

  /** What may be set otherwise, as it is until then. */
  private final class Draft {
    Optional<OtherBroker> otherBroker = HostSettings.this.otherBroker;
    InstantSource benchClock = HostSettings.this.benchClock;
    Duration orderExpiry = HostSettings.this.orderExpiry;
    Keeping keeping = HostSettings.this.keeping;
    Optional<Path> notices = HostSettings.this.notices;
    Optional<Exposure> exposure = HostSettings.this.exposure;
    Optional<BrokerExposure> brokerExposure = HostSettings.this.brokerExposure;
  }
}
