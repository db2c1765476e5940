package dev.cupwarden.board;

import com.pi4j.context.Context;
import com.pi4j.exception.InitializeException;
import com.pi4j.exception.ShutdownException;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalInputBase;
import com.pi4j.io.gpio.digital.DigitalInputConfig;
import com.pi4j.io.gpio.digital.DigitalInputProviderBase;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.PullResistance;
import java.io.IOException;

/**
 * Pi4J's digital inputs on a {@link GpioChip}; they are asked, and tell no listener by themselves.
 */
final class GpioChipInputs extends DigitalInputProviderBase {
  private final GpioChip chip;

  GpioChipInputs(GpioChip chip) {
    super("gpiochip-inputs", "Inputs by the kernel's character device");
    this.chip = chip;
  }

  @Override
  public DigitalInput create(DigitalInputConfig config) {
    DigitalInput input = new Input(config);
    context.registry().add(input);
    return input;
  }

  private static GpioChip.Bias bias(PullResistance pull) {
    if (pull == PullResistance.PULL_UP) {
      return GpioChip.Bias.PULL_UP;
    }
    return pull == PullResistance.PULL_DOWN ? GpioChip.Bias.PULL_DOWN : GpioChip.Bias.NONE;
  }

  private final class Input extends DigitalInputBase {
    private GpioChip.Line line;

    Input(DigitalInputConfig config) {
      super(GpioChipInputs.this, config);
    }

    @Override
    public DigitalInput initialize(Context context) throws InitializeException {
      Long micros = config.debounce();
      try {
        line =
            chip.input(
                config.address(),
                config.id(),
                bias(config.pull()),
                micros == null ? 0 : Math.toIntExact(micros));
      } catch (IOException e) {
        throw new InitializeException(e.getMessage(), e);
      }
      return super.initialize(context);
    }

    @Override
    public DigitalState state() {
      try {
        return DigitalState.getState(line.high());
      } catch (IOException e) {
        throw new com.pi4j.io.exception.IOException(e.getMessage(), e);
      }
    }

    @Override
    public DigitalInput shutdown(Context context) throws ShutdownException {
      if (line != null) {
        super.shutdown(context);
        line.giveBack();
        line = null;
      }
      return this;
    }
  }
}
