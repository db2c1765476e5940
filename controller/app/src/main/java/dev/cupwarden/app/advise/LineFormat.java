package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import java.util.Optional;
import java.util.Set;

/** How a line says what was seen. */
interface LineFormat {
  /**
   * What a line says; empty for a line that says only how the next ones are to be read.
   *
   * @param cups names of the cups known so far
   */
  Optional<Observation> read(String line, Set<String> cups) throws LineRefused;
}
