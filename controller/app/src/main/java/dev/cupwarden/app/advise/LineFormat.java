package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** How a line says what was seen. */
interface LineFormat {
  /**
   * What a line says, or those before it now that they are whole; empty for a line that says only
   * how the next ones are to be read, or that others may go with.
   *
   * @param cups names of the cups known so far
   */
  Optional<Observation> read(String line, Set<String> cups) throws LineRefused;

  /** What a person wrote beside what was read last. */
  default List<String> notes() {
    return List.of();
  }

  /** What the last lines said, if it was not told yet. */
  default Optional<Observation> end() throws LineRefused {
    return Optional.empty();
  }
}
