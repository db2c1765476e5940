package dev.cupwarden.host;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.HostSettings.OtherBroker;
import dev.cupwarden.host.broker.BrokerAccess;
import dev.cupwarden.host.broker.BrokerExposure;
import dev.cupwarden.host.broker.EmbeddedBroker;
import dev.cupwarden.host.broker.HostMqttLink;
import dev.cupwarden.host.broker.HostMqttLink.Credential;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.ingest.Counts;
import dev.cupwarden.host.ingest.Ingest;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.orders.OrderException;
import dev.cupwarden.host.orders.OrderService;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.StoreClaim;
import dev.cupwarden.host.store.StoreMaintenance;
import dev.cupwarden.host.users.BenchKeys;
import dev.cupwarden.host.watch.StandbyMqttLink;
import dev.cupwarden.host.watch.StoreWatch;
import dev.cupwarden.host.web.HealthRoutes;
import dev.cupwarden.host.web.WebServer;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A running host: broker, store, ingest, orders and page, started in the order in which they need
 * each other and stopped in the opposite one.
 */
public final class Host implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Host.class);
  private static final long CONNECT_LIMIT_MS = 15_000;
  private static final Duration UPKEEP = Duration.ofMinutes(5);

  /**
   * Each message to one of the hosts. What is retained goes to all of them, since a broker gives
   * nothing retained to a shared subscription (MQTT 5, section 4.8.2); storing it twice is
   * harmless. So do beats, by which each of them judges.
   */
  private static final List<String> SHARED = sharedTopics(new Topics("+"));

  private final Deque<AutoCloseable> parts = new ArrayDeque<>();

  /** At the broker inside the host; known to nobody else. */
  private final Credential own =
      new Credential("cupwarden-host", UUID.randomUUID() + "-" + UUID.randomUUID());

  private String brokerUri;
  private String benchesUri;
  private OrderService orders;
  private WebServer web;
  private Ingest ingest;
  private HostMqttLink link;
  private Watches watches;

  private Host() {}

  /**
   * Starts a host and returns once it is connected; with a broker elsewhere it goes on trying where
   * that one is away.
   *
   * @throws HostException if a port is taken, the store cannot be opened or the broker not started
   */
  public static Host start(HostSettings settings) throws InterruptedException {
    Host host = new Host();
    try {
      host.open(settings);
      boolean connected = host.link.awaitConnection(CONNECT_LIMIT_MS);
      if (!connected && settings.otherBroker().isEmpty()) {
        throw new HostException("The host could not connect to its own broker.");
      }
      return host;
    } catch (HostException | InterruptedException failed) {
      host.close();
      throw failed;
    }
  }

  private void open(HostSettings settings) {
    // The page's port first: of all that can be refused it costs least to ask.
    settings.page().requireFree();
    String name = HostName.of(settings.data());
    lock(settings);
    Optional<StoreClaim> claim = claim(settings);
    Store store = started(Store.open(settings.keeping().database()));
    brokerUri =
        settings.otherBroker().map(OtherBroker::uri).orElseGet(() -> ownBroker(settings, store));
    orders =
        new OrderService(
            store,
            settings.benchClock(),
            settings.orderExpiry(),
            (topic, payload, expiryS) -> link.publish(topic, payload, false, expiryS));
    watches =
        started(new Watches(settings, store, name, this::waitingSince, this::storeHasChanged));
    web =
        started(
            WebServer.of(
                settings.page(),
                settings.exposure(),
                store,
                orders,
                settings.benchClock(),
                new Vitals()));
    ingest =
        new Ingest(
            store,
            InstantSource.system(),
            web.feed(),
            this::publishRetained,
            watches.people(),
            (bench, beat) -> watches.beats().hear(bench, beat, Instant.now()),
            watches.store()::refused);
    link = started(openLink(settings, name));
    watches.begin(web.feed(), link::isConnected, ingest, () -> openStandby(settings, name));
    // An order goes out by the link: no page before there is one.
    web.answer();
    PeriodicTasks chores = started(new PeriodicTasks("upkeep"));
    chores.every(
        UPKEEP,
        new StoreMaintenance(store, InstantSource.system(), settings.keeping().retention())::run);
    claim.ifPresent(held -> chores.every(UPKEEP, held::renew));
    // Started last and so stopped first, while marks can still be told.
    started(ingest).start();
  }

  /** The data folder, and that of a SQLite store elsewhere. */
  private void lock(HostSettings settings) {
    Path data = settings.data().toAbsolutePath().normalize();
    started(FolderLock.of(data));
    Optional<Path> store =
        settings.keeping().database().file().map(file -> file.toAbsolutePath().normalize());
    store
        .map(Path::getParent)
        .filter(folder -> !folder.equals(data))
        .ifPresent(folder -> started(FolderLock.of(folder)));
  }

  /** A database's; a file is locked by its folder. */
  private Optional<StoreClaim> claim(HostSettings settings) {
    Database database = settings.keeping().database();
    return database.file().isPresent()
        ? Optional.empty()
        : Optional.of(started(StoreClaim.of(database, isShared(settings))));
  }

  private static boolean isShared(HostSettings settings) {
    return settings.otherBroker().map(OtherBroker::shared).orElse(false);
  }

  private Optional<Instant> waitingSince() {
    return ingest == null ? Optional.empty() : ingest.waitingSince();
  }

  private void storeHasChanged(StoreWatch.State state) {
    if (web != null) {
      web.feed().accept(LiveEvent.host(state));
    }
  }

  private static BrokerAccess.Keys keysOf(Store store) {
    BenchKeys keys = new BenchKeys(store);
    return new BrokerAccess.Keys() {
      @Override
      public boolean any() {
        return keys.any();
      }

      @Override
      public boolean matches(String bench, char[] key) {
        return keys.matches(bench, key);
      }
    };
  }

  private HostMqttLink openLink(HostSettings settings, String name) {
    return HostMqttLink.open(
        brokerUri,
        name,
        settings.otherBroker().map(OtherBroker::credential).orElse(Optional.of(own)),
        isShared(settings) ? SHARED : List.of(Topics.everything()),
        new Intake());
  }

  /** To what must be heard though the store takes nothing. */
  private HostMqttLink openStandby(HostSettings settings, String name) {
    return HostMqttLink.passing(
        brokerUri,
        name + "-ear",
        settings.otherBroker().map(OtherBroker::credential).orElse(Optional.of(own)),
        List.of(new Topics("+").beat(), new Topics("+").events()),
        StandbyMqttLink.to(ingest::overhear));
  }

  private String ownBroker(HostSettings settings, Store store) {
    BrokerAccess.Keys keys = keysOf(store);
    if (settings.brokerExposure().isPresent() && !keys.any()) {
      throw new HostException(
          "--broker-listen: other machines would reach the broker and no bench has a key yet; make"
              + " one with the command user bench.");
    }
    EmbeddedBroker broker =
        started(
            EmbeddedBroker.start(
                settings.broker(),
                settings.brokerExposure(),
                settings.data().resolve("broker"),
                new BrokerAccess(keys, own)));
    benchesUri = settings.brokerExposure().map(BrokerExposure::uri).orElse(broker.uri());
    return broker.uri();
  }

  private <T extends AutoCloseable> T started(T part) {
    parts.push(part);
    return part;
  }

  private void publishRetained(String topic, byte[] payload) {
    var unused =
        link.publish(topic, payload, true, 0)
            .whenComplete(
                (done, failed) -> {
                  if (failed != null) {
                    // The next event, or the controller's asking again, brings the next mark.
                    LOG.debug("a mark could not be told", failed);
                  }
                });
  }

  private final class Vitals implements HealthRoutes.HostCondition {
    @Override
    public boolean isConnected() {
      return link != null && link.isConnected();
    }

    @Override
    public int backlog() {
      return ingest == null ? 0 : ingest.backlog();
    }

    @Override
    public boolean storeTakes() {
      return watches.store().takes();
    }

    @Override
    public StoreWatch.State store() {
      return watches.store().state();
    }

    @Override
    public Counts counts() {
      return ingest == null ? Counts.NONE : ingest.counts();
    }
  }

  private final class Intake implements HostMqttLink.Receiver {
    @Override
    public void receive(Delivery delivery) throws InterruptedException {
      ingest.receive(delivery);
    }

    @Override
    public void connected() {}
  }

  /** Where the page is. */
  public String address() {
    return web.address();
  }

  /** Where this machine reaches the broker. */
  public String brokerUri() {
    return brokerUri;
  }

  /** Where benches connect: as the broker, or its address for other machines. */
  public String benchesUri() {
    return benchesUri == null ? brokerUri : benchesUri;
  }

  /**
   * Places an order, as the page does.
   *
   * @param order an object with {@code kind} and its fields
   * @param by who asks
   * @return the order's id
   * @throws OrderException if it is no order, or cannot be sent now
   */
  public String order(String bench, JsonNode order, String by) throws OrderException {
    return orders.place(bench, order, by);
  }

  /** What came in so far. */
  public Counts counts() {
    return ingest.counts();
  }

  @Override
  public void close() {
    while (!parts.isEmpty()) {
      AutoCloseable part = parts.pop();
      try {
        part.close();
      } catch (Exception failed) {
        LOG.warn("{} did not stop cleanly: {}", part.getClass().getSimpleName(), failed.toString());
      }
    }
  }

  private static List<String> sharedTopics(Topics any) {
    return List.of(
        shared(any.readings()),
        shared(any.events()),
        shared(any.receipts()),
        any.presence(),
        any.beat(),
        any.benchStatus(),
        any.setup(),
        any.cup("+"));
  }

  private static String shared(String topic) {
    return "$share/cupwarden-host/" + topic;
  }
}
