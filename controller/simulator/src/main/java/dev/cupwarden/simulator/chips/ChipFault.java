package dev.cupwarden.simulator.chips;

/** How a chip on the bus can be broken. */
public enum ChipFault {
  /** Works as its sheet says. */
  NONE,
  /** Does not acknowledge: unplugged, or without supply. */
  SILENT,
  /** Acknowledges and gives the last bytes it gave, for ever. */
  STUCK,
  /** Drives the data line low: every read is zeroes. */
  ZEROES,
  /** Lets go of the data line: every read is ones. */
  ONES,
  /** Answers with some bits turned over. */
  GARBLED,
  /** Holds the clock: every message on the bus fails while it is reached. */
  BUS_ERROR
}
