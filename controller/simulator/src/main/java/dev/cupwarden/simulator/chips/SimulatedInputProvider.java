package dev.cupwarden.simulator.chips;

import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalInputBase;
import com.pi4j.io.gpio.digital.DigitalInputConfig;
import com.pi4j.io.gpio.digital.DigitalInputProvider;
import com.pi4j.io.gpio.digital.DigitalInputProviderBase;
import com.pi4j.io.gpio.digital.DigitalState;
import java.util.function.IntPredicate;

/** Pi4J's digital inputs, asked of the world when they are read. */
public final class SimulatedInputProvider extends DigitalInputProviderBase {
  private final IntPredicate high;

  /** Inputs by the level of each line, by its number. */
  public SimulatedInputProvider(IntPredicate high) {
    super("simulated-inputs", "Simulated digital inputs");
    this.high = high;
  }

  @Override
  public DigitalInput create(DigitalInputConfig config) {
    DigitalInput input = new Input(this, config);
    context.registry().add(input);
    return input;
  }

  private final class Input extends DigitalInputBase {
    Input(DigitalInputProvider provider, DigitalInputConfig config) {
      super(provider, config);
    }

    @Override
    public DigitalState state() {
      return DigitalState.getState(high.test(config.address()));
    }
  }
}
