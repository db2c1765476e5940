package dev.cupwarden.board;

import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.PullResistance;

/**
 * A contact that water closes to ground: leak pads on the floor, or a float switch. The line is
 * pulled up, so a broken wire reads as open; a leak sensor whose wire may break wants a second one.
 */
final class WaterSwitch {
  private static final long DEBOUNCE_MICROS = 20_000;

  private final String name;
  private final DigitalInput line;

  WaterSwitch(String name, DigitalInput line) {
    this.name = name;
    this.line = line;
  }

  static WaterSwitch open(Context pi4j, String name, int gpio) throws BoardException {
    return BoardContext.open(
        "Input %d (%s)".formatted(gpio, name),
        () ->
            new WaterSwitch(
                name,
                pi4j.create(
                    DigitalInput.newConfigBuilder(pi4j)
                        .id("input-" + gpio)
                        .name(name)
                        .address(gpio)
                        .pull(PullResistance.PULL_UP)
                        .debounce(DEBOUNCE_MICROS)
                        .build())));
  }

  /** Whether water closes it now. */
  boolean closed() throws ChipException {
    try {
      return line.state().isLow();
    } catch (Pi4JException e) {
      throw new ChipException("The input of %s cannot be read.".formatted(name), e);
    }
  }
}
