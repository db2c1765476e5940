package dev.cupwarden.simulator.world;

import java.time.Instant;

/** The room the bench stands in, asked in order of time. */
public interface Room {
  /** The air then; {@code at} not before the moment asked last. */
  Air at(Instant at);

  /** What the bench's sensors show of that air; without error unless the room says otherwise. */
  default Air shown(Air air) {
    return air;
  }
}
