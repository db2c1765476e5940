package dev.cupwarden.board;

/**
 * The eight-line I2C port expander PCF8574, for valves. Its lines sink current well and source
 * hardly any, so a load hangs between supply and line: low is on. After power-on all lines are
 * high, so a brown-out switches everything off by itself.
 *
 * <p>The pump does not belong here: a bus that hangs would keep it from being switched off. The
 * pump hangs on a line of the processor, which the guard reaches without the bus.
 */
final class Pcf8574 {
  private static final int ALL_OFF = 0xFF;

  private final I2cPort port;
  private int levels = ALL_OFF;

  Pcf8574(I2cPort port) {
    this.port = port;
  }

  /**
   * One of its lines as an output.
   *
   * @param pin 0 to 7
   */
  OutputLine line(String name, int pin) {
    if (pin < 0 || pin > 7) {
      throw new IllegalArgumentException("A PCF8574 has lines 0 to 7, not " + pin);
    }
    int bit = 1 << pin;
    return new OutputLine() {
      @Override
      public String name() {
        return name;
      }

      @Override
      public void on() throws ChipException {
        set(name, bit, 0);
      }

      @Override
      public void off() throws ChipException {
        set(name, bit, bit);
      }

      @Override
      public boolean overBus() {
        return true;
      }
    };
  }

  /**
   * Sets a line and reads the port back: a load's short or a chip that lost its supply shows at
   * once. Only the line's own bit is judged, so that one bad line does not hold up the others.
   */
  private synchronized void set(String name, int bit, int level) throws ChipException {
    int wanted = (levels & ~bit) | level;
    port.write(wanted);
    levels = wanted;
    int shown = port.read(1)[0] & 0xFF;
    if ((shown & bit) != level) {
      throw new ChipException(
          "The expander's line of %s shows %s: it is shorted or the chip lost its supply."
              .formatted(name, level == 0 ? "off where on was set" : "on where off was set"));
    }
  }
}
