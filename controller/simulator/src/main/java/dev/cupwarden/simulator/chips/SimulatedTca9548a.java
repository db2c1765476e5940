package dev.cupwarden.simulator.chips;

/**
 * The eight-way I2C switch TCA9548A: one control register, a bit a channel; all channels are off
 * after power-on. What stands behind the channels is the bus's to know.
 */
public final class SimulatedTca9548a implements SimulatedChip {
  private int control;

  @Override
  public String part() {
    return "tca9548a";
  }

  /** Whether a channel, 0 to 7, is switched through. */
  boolean through(int channel) {
    return (control >> channel & 1) != 0;
  }

  @Override
  public void write(int[] bytes) {
    // The last byte wins: each overwrites the register.
    if (bytes.length > 0) {
      control = bytes[bytes.length - 1];
    }
  }

  @Override
  public int[] read(int count) {
    int[] out = new int[count];
    java.util.Arrays.fill(out, control);
    return out;
  }

  @Override
  public void losePower() {
    control = 0;
  }
}
