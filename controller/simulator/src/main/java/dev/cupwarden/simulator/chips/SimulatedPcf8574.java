package dev.cupwarden.simulator.chips;

import java.util.Arrays;
import java.util.function.IntConsumer;

/** The port expander PCF8574 from its data sheet: one byte of levels, all high after power-on. */
public final class SimulatedPcf8574 implements SimulatedChip {
  private final IntConsumer lines;
  private int latch = 0xFF;
  private int heldLow;

  /**
   * A chip after power-on.
   *
   * @param lines told the levels of the eight lines, a bit each, when they change
   */
  public SimulatedPcf8574(IntConsumer lines) {
    this.lines = lines;
  }

  @Override
  public String part() {
    return "pcf8574";
  }

  /** Lines that something outside pulls to ground, a bit each. */
  public void holdLow(int mask) {
    heldLow = mask;
  }

  @Override
  public void losePower() {
    latch = 0xFF;
    lines.accept(latch & ~heldLow);
  }

  @Override
  public void write(int[] bytes) {
    for (int level : bytes) {
      latch = level;
      lines.accept(latch & ~heldLow);
    }
  }

  @Override
  public int[] read(int count) {
    int[] out = new int[count];
    Arrays.fill(out, latch & ~heldLow & 0xFF);
    return out;
  }
}
