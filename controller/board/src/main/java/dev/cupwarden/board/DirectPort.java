package dev.cupwarden.board;

import com.pi4j.exception.Pi4JException;
import com.pi4j.io.i2c.I2C;

/** An address on the trunk of a bus, through Pi4J; its many exceptions become one sentence. */
final class DirectPort implements I2cPort {
  private final I2C device;

  DirectPort(I2C device) {
    this.device = device;
  }

  @Override
  public void write(int... bytes) throws ChipException {
    byte[] message = new byte[bytes.length];
    for (int i = 0; i < bytes.length; i++) {
      message[i] = (byte) bytes[i];
    }
    try {
      expect(message.length, device.write(message, 0, message.length));
    } catch (Pi4JException e) {
      throw failed(e);
    }
  }

  @Override
  public byte[] read(int count) throws ChipException {
    byte[] answer = new byte[count];
    try {
      expect(count, device.read(answer, 0, count));
    } catch (Pi4JException e) {
      throw failed(e);
    }
    return answer;
  }

  @Override
  public byte[] readFrom(int register, int count) throws ChipException {
    byte[] answer = new byte[count];
    try {
      expect(count, device.readRegister(register, answer, 0, count));
    } catch (Pi4JException e) {
      throw failed(e);
    }
    return answer;
  }

  private void expect(int count, int done) throws ChipException {
    if (done != count) {
      throw new ChipException(
          "%d of %d bytes went over the bus to 0x%02x.".formatted(done, count, device.device()));
    }
  }

  private ChipException failed(Pi4JException e) {
    Throwable root = e;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return new ChipException(
        "No answer from 0x%02x on I2C bus %d (%s)."
            .formatted(device.device(), device.bus(), root.getMessage()),
        e);
  }
}
