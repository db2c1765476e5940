package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import java.util.Set;

/** What answers observations, and remembers them. */
interface Adviser {
  /** Names of the cups known so far; a cup that left the bench stays known. */
  Set<String> cups();

  /**
   * The answer to what was seen next.
   *
   * @param brief whether to leave the state of the cups out
   * @throws LineRefused if it cannot follow what was seen before; then nothing has changed
   */
  Advice advise(Observation seen, boolean brief) throws LineRefused;
}
