package dev.cupwarden.board;

/**
 * The eight-way I2C switch TCA9548A: one register with a bit for each channel. The register is read
 * back after each change, as a switch that kept its old channel would give one cup's weight for
 * another's.
 */
final class Tca9548a {
  /** What the register holds when it is not known. */
  private static final int UNKNOWN = -1;

  private final I2cPort port;
  private int selected = UNKNOWN;

  Tca9548a(I2cPort port) {
    this.port = port;
  }

  /** Switches that channel (0 to 7) through, and no other. */
  void open(int channel) throws ChipException {
    set(1 << channel);
  }

  /** Switches every channel off. */
  void shut() throws ChipException {
    set(0);
  }

  /** Something failed: what is switched through is no longer taken for granted. */
  void forget() {
    selected = UNKNOWN;
  }

  private void set(int channels) throws ChipException {
    if (selected == channels) {
      return;
    }
    selected = UNKNOWN;
    port.write(channels);
    int shown = port.read(1)[0] & 0xFF;
    if (shown != channels) {
      throw new ChipException(
          "The I2C switch shows channels 0x%02x where 0x%02x was set.".formatted(shown, channels));
    }
    selected = channels;
  }
}
