package dev.cupwarden.app.journal;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.state.BenchState;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * What one tick leaves behind, put down in one transaction before any water moves.
 *
 * @param at the tick's time
 * @param line what was seen, as a line of {@code advise} input
 * @param state the state after it; all of {@code passes} count as given in it
 * @param senml the same readings as a SenML pack; none when nothing was read
 * @param passes intents, in the order to give them
 * @param events what happened in the tick
 * @param orderIds orders out of the inbox that this tick has taken
 */
public record TickEntry(
    Instant at,
    String line,
    BenchState state,
    Optional<String> senml,
    List<Advice.Pass> passes,
    List<JournalEvent> events,
    List<String> orderIds) {}
