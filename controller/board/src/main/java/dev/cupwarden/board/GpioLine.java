package dev.cupwarden.board;

import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;

/** An output on a line of the processor: off at start and when Pi4J shuts down. */
final class GpioLine implements OutputLine {
  private final String name;
  private final DigitalOutput output;
  private final boolean activeLow;

  private GpioLine(String name, DigitalOutput output, boolean activeLow) {
    this.name = name;
    this.output = output;
    this.activeLow = activeLow;
  }

  /** Takes the line and switches it off. */
  static GpioLine open(Context pi4j, String name, int gpio, boolean activeLow)
      throws BoardException {
    DigitalState off = DigitalState.getState(activeLow);
    return BoardContext.open(
        "Output %d (%s)".formatted(gpio, name),
        () -> {
          DigitalOutput output =
              pi4j.create(
                  DigitalOutput.newConfigBuilder(pi4j)
                      .id("output-" + gpio)
                      .name(name)
                      .address(gpio)
                      .initial(off)
                      .shutdown(off)
                      .build());
          // Said again: a provider may take "initial" for what it already believes the line to be.
          output.state(off);
          return new GpioLine(name, output, activeLow);
        });
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public void on() throws ChipException {
    set(DigitalState.getState(!activeLow));
  }

  @Override
  public void off() throws ChipException {
    set(DigitalState.getState(activeLow));
  }

  private void set(DigitalState level) throws ChipException {
    try {
      output.state(level);
    } catch (Pi4JException e) {
      throw new ChipException(
          "The output of %s cannot be switched: %s".formatted(name, e.getMessage()), e);
    }
  }
}
