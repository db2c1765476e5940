package dev.cupwarden.simulator.chips;

/**
 * A chip as the bus sees it. Bytes are given as 0 to 255.
 *
 * <p>Each call is one addressed message; a combined write-and-read arrives as a {@link #write} and
 * then a {@link #read} with no other message between them.
 */
public interface SimulatedChip {
  /** Part number in lower case, for the bus map. */
  String part();

  /**
   * Bytes written by the master after the address.
   *
   * @throws NotAcknowledged when the chip does not take them
   */
  void write(int[] bytes) throws NotAcknowledged;

  /**
   * Bytes the chip puts out.
   *
   * @throws NotAcknowledged when it has none to give now
   */
  int[] read(int count) throws NotAcknowledged;

  /** The supply was lost for a moment and is back: registers are as after power-on. */
  void losePower();

  /** The chip left the acknowledge bit high. */
  final class NotAcknowledged extends Exception {
    private static final long serialVersionUID = 1L;

    public NotAcknowledged() {
      super("no acknowledge");
    }
  }
}
