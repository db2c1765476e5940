package dev.cupwarden.host;

import dev.cupwarden.host.broker.LoopbackPort;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.Optional;

/**
 * What a host is told to be.
 *
 * @param data folder of the store and of the host's own name
 * @param page where the page is shown
 * @param broker where the broker inside the host listens; not used where there is another
 * @param otherBroker address of a broker elsewhere, {@code tcp://host:port}
 * @param benchClock the time as the benches have it: this machine's, unless time runs fast
 * @param orderExpiry how long an order is meant, in the benches' time
 */
public record HostSettings(
    Path data,
    LoopbackPort page,
    LoopbackPort broker,
    Optional<String> otherBroker,
    InstantSource benchClock,
    Duration orderExpiry) {
  public static final Duration USUAL_ORDER_EXPIRY = Duration.ofMinutes(10);
}
