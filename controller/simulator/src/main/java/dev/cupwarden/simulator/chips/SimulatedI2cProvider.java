package dev.cupwarden.simulator.chips;

import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.exception.ShutdownException;
import com.pi4j.io.i2c.I2C;
import com.pi4j.io.i2c.I2CBase;
import com.pi4j.io.i2c.I2CBus;
import com.pi4j.io.i2c.I2CConfig;
import com.pi4j.io.i2c.I2CProvider;
import com.pi4j.io.i2c.I2CProviderBase;
import java.io.IOException;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Callable;

/** Pi4J's I2C, answered by simulated buses by their number. */
public final class SimulatedI2cProvider extends I2CProviderBase {
  private final Map<Integer, SimulatedI2cBus> buses;

  public SimulatedI2cProvider(Map<Integer, SimulatedI2cBus> buses) {
    super("simulated-i2c", "Simulated I2C");
    this.buses = Map.copyOf(buses);
  }

  @Override
  public I2C create(I2CConfig config) {
    SimulatedI2cBus bus = buses.get(config.bus());
    if (bus == null) {
      throw new Pi4JException("There is no I2C bus " + config.bus());
    }
    I2C device = new Device(this, config, new Master(bus));
    context.registry().add(device);
    return device;
  }

  /** The bus's master, one message at a time. */
  private record Master(SimulatedI2cBus bus) implements I2CBus {
    @Override
    public <R> R execute(I2C device, Callable<R> messages) {
      synchronized (bus) {
        try {
          return messages.call();
        } catch (IOException e) {
          throw new Pi4JException(
              "Failed to execute action for device " + device.device() + " on bus " + device.bus(),
              e);
        } catch (RuntimeException e) {
          throw e;
        } catch (Exception e) {
          throw new Pi4JException(e);
        }
      }
    }
  }

  /** One address on the bus. */
  private static final class Device extends I2CBase<Master> {
    Device(I2CProvider provider, I2CConfig config, Master master) {
      super(provider, config, master);
    }

    private SimulatedI2cBus wires() {
      return i2CBus.bus();
    }

    @Override
    public int write(byte b) {
      return write(new byte[] {b}, 0, 1);
    }

    @Override
    public int write(byte[] data, int offset, int length) {
      int[] bytes = unsigned(data, offset, length);
      return i2CBus.execute(
          this,
          () -> {
            wires().write(device(), bytes);
            return length;
          });
    }

    @Override
    public int read() {
      return i2CBus.execute(this, () -> wires().read(device(), 1)[0]);
    }

    @Override
    public int read(byte[] buffer, int offset, int length) {
      return i2CBus.execute(this, () -> fill(wires().read(device(), length), buffer, offset));
    }

    @Override
    public int writeRegister(int register, byte b) {
      return write(new byte[] {(byte) register, b}, 0, 2);
    }

    @Override
    public int writeRegister(int register, byte[] data, int offset, int length) {
      return writeRegister(new byte[] {(byte) register}, data, offset, length);
    }

    @Override
    public int writeRegister(byte[] register, byte[] data, int offset, int length) {
      byte[] message = new byte[register.length + length];
      System.arraycopy(register, 0, message, 0, register.length);
      System.arraycopy(data, offset, message, register.length, length);
      return write(message, 0, message.length) - register.length;
    }

    @Override
    public int readRegister(int register) {
      byte[] one = new byte[1];
      readRegister(register, one, 0, 1);
      return one[0] & 0xFF;
    }

    @Override
    public int readRegister(int register, byte[] buffer, int offset, int length) {
      return readRegister(new byte[] {(byte) register}, buffer, offset, length);
    }

    @Override
    public int readRegister(byte[] register, byte[] buffer, int offset, int length) {
      int[] first = unsigned(register, 0, register.length);
      return i2CBus.execute(
          this, () -> fill(wires().writeRead(device(), first, length), buffer, offset));
    }

    private static int[] unsigned(byte[] data, int offset, int length) {
      Objects.checkFromIndexSize(offset, length, data.length);
      int[] bytes = new int[length];
      for (int i = 0; i < length; i++) {
        bytes[i] = data[offset + i] & 0xFF;
      }
      return bytes;
    }

    private static int fill(int[] bytes, byte[] buffer, int offset) {
      for (int i = 0; i < bytes.length; i++) {
        buffer[offset + i] = (byte) bytes[i];
      }
      return bytes.length;
    }

    @Override
    public I2C shutdown(Context context) throws ShutdownException {
      close();
      return super.shutdown(context);
    }
  }
}
