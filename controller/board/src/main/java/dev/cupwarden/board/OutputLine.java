package dev.cupwarden.board;

/** One switched output: a pump or a valve behind its driver stage. */
interface OutputLine {
  /** How messages call it. */
  String name();

  void on() throws ChipException;

  void off() throws ChipException;

  /** Whether it is switched over a bus, which may hang; such lines are switched off last. */
  default boolean overBus() {
    return false;
  }
}
