package dev.cupwarden.board;

import com.pi4j.context.Context;
import com.pi4j.exception.InitializeException;
import com.pi4j.exception.ShutdownException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputBase;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import com.pi4j.io.gpio.digital.DigitalOutputProvider;
import com.pi4j.io.gpio.digital.DigitalOutputProviderBase;
import com.pi4j.io.gpio.digital.DigitalState;
import java.io.IOException;

/** Pi4J's digital outputs on a {@link GpioChip}. */
final class GpioChipOutputs extends DigitalOutputProviderBase {
  private final GpioChip chip;

  GpioChipOutputs(GpioChip chip) {
    super("gpiochip-outputs", "Outputs by the kernel's character device");
    this.chip = chip;
  }

  @Override
  public DigitalOutput create(DigitalOutputConfig config) {
    DigitalOutput output = new Output(config);
    context.registry().add(output);
    return output;
  }

  /** Its lines were given back one by one. */
  @Override
  public DigitalOutputProvider shutdown(Context context) throws ShutdownException {
    try {
      chip.close();
    } catch (IOException e) {
      throw new ShutdownException(e.getMessage(), e);
    }
    return super.shutdown(context);
  }

  private final class Output extends DigitalOutputBase {
    private GpioChip.Line line;

    Output(DigitalOutputConfig config) {
      super(GpioChipOutputs.this, config);
    }

    /** Taken at its first level, so that it is at no other in between; low where none is said. */
    @Override
    public DigitalOutput initialize(Context context) throws InitializeException {
      boolean high = config.initialState() != null && config.initialState().isHigh();
      try {
        line = chip.output(config.address(), config.id(), high);
      } catch (IOException e) {
        throw new InitializeException(e.getMessage(), e);
      }
      return super.initialize(context);
    }

    @Override
    public DigitalOutput state(DigitalState level) {
      try {
        line.set(level.isHigh());
      } catch (IOException e) {
        throw new com.pi4j.io.exception.IOException(e.getMessage(), e);
      }
      return super.state(level);
    }

    /** Goes to its last level, then back to the kernel. */
    @Override
    public DigitalOutput shutdown(Context context) throws ShutdownException {
      if (line != null) {
        super.shutdown(context);
        line.giveBack();
        line = null;
      }
      return this;
    }
  }
}
