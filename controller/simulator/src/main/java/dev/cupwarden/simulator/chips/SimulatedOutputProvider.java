package dev.cupwarden.simulator.chips;

import com.pi4j.io.exception.IOException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputBase;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import com.pi4j.io.gpio.digital.DigitalOutputProvider;
import com.pi4j.io.gpio.digital.DigitalOutputProviderBase;
import com.pi4j.io.gpio.digital.DigitalState;

/** Pi4J's digital outputs, told to whoever hangs on the line. */
public final class SimulatedOutputProvider extends DigitalOutputProviderBase {
  /** What an output line does to the world. */
  public interface Load {
    /** The line went to that level. */
    void drive(int gpio, boolean high);
  }

  private final Load load;

  public SimulatedOutputProvider(Load load) {
    super("simulated-outputs", "Simulated digital outputs");
    this.load = load;
  }

  @Override
  public DigitalOutput create(DigitalOutputConfig config) {
    DigitalOutput output = new Output(this, config);
    context.registry().add(output);
    return output;
  }

  private final class Output extends DigitalOutputBase {
    Output(DigitalOutputProvider provider, DigitalOutputConfig config) {
      super(provider, config);
    }

    @Override
    public DigitalOutput state(DigitalState level) throws IOException {
      load.drive(config.address(), level.isHigh());
      return super.state(level);
    }
  }
}
