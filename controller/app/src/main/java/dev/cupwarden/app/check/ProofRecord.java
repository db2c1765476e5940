package dev.cupwarden.app.check;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.SmallFile;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.BoardWiring;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * When the bench was last proved, and as which wiring: {@code proof.json} beside the journal. It
 * holds up nothing, since a bench must not stop in midwinter for a date; it is told until it is
 * done.
 */
public final class ProofRecord {
  private static final Logger log = LoggerFactory.getLogger(ProofRecord.class);
  private static final String FILE = "proof.json";

  /** A winter and a half of cuttings: valves gum up, electrodes corrode. Our choice. */
  private static final Duration GOOD_FOR = Duration.ofDays(200);

  private static final String HOW = ": run \"check --prove\", with somebody who stands by.";

  private final Path file;

  /**
   * @param folder that the journal is kept in
   */
  public ProofRecord(Path folder) {
    this.file = folder.resolve(FILE);
  }

  void write(BoardWiring wiring, Instant at) throws IOException {
    Files.writeString(
        file,
        Json.MAPPER
            .createObjectNode()
            .put("at", at.toString())
            .put("wiring", digest(wiring))
            .toString(),
        StandardOpenOption.CREATE,
        StandardOpenOption.TRUNCATE_EXISTING,
        StandardOpenOption.SYNC);
  }

  /** Why it is to be proved anew, in one sentence; none while the last proof holds. */
  public Optional<String> asks(BoardWiring wiring, Instant now) {
    try {
      if (!Files.exists(file)) {
        return Optional.of("It was never proved that timer, valves and sensors act" + HOW);
      }
      JsonNode last = Json.MAPPER.readTree(SmallFile.text(file));
      if (!last.path("wiring").asText().equals(digest(wiring))) {
        return Optional.of("The wiring has changed since it was proved" + HOW);
      }
      long days = Duration.between(Instant.parse(last.path("at").asText()), now).toDays();
      return days < GOOD_FOR.toDays() && days >= 0
          ? Optional.empty()
          : Optional.of("That the parts act was last proved %d days ago".formatted(days) + HOW);
    } catch (JsonProcessingException | DateTimeException unreadable) {
      log.debug("{} cannot be read", file, unreadable);
      return Optional.of("The record of the last proof cannot be read" + HOW);
    } catch (IOException unreadable) {
      return Optional.of(
          "The record of the last proof cannot be read (%s)".formatted(unreadable.getMessage())
              + HOW);
    }
  }

  /** Calibrations are no wiring: they change each month. */
  private static String digest(BoardWiring wiring) {
    StringBuilder places = new StringBuilder();
    wiring.scales().forEach((name, scale) -> places.append(name).append(scale.place()));
    places.append(wiring.pump().gpio()).append(wiring.pump().activeLow());
    wiring.valves().forEach((name, valve) -> places.append(name).append(valve));
    places.append(wiring.more().leak()).append(wiring.more().heartbeat());
    wiring.more().gauges().forEach((name, gauge) -> places.append(name).append(gauge));
    return Integer.toHexString(places.toString().hashCode());
  }
}
