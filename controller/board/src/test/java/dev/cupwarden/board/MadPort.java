package dev.cupwarden.board;

import java.util.SplittableRandom;

/**
 * A port to a chip gone mad: it keeps what is written to it and shows itself powered up and ready,
 * but any byte may be another, and any message may go without answer.
 */
final class MadPort implements I2cPort {
  private final SplittableRandom random;
  private final double madness;
  private final byte[] registers = new byte[256];

  MadPort(SplittableRandom random, double madness) {
    this.random = random;
    this.madness = madness;
  }

  @Override
  public void write(int... bytes) throws ChipException {
    sometimesSilent();
    for (int i = 1; i < bytes.length; i++) {
      registers[bytes[0] + i - 1] = (byte) bytes[i];
    }
  }

  @Override
  public byte[] read(int count) throws ChipException {
    sometimesSilent();
    byte[] bytes = new byte[count];
    random.nextBytes(bytes);
    return bytes;
  }

  @Override
  public byte[] readFrom(int register, int count) throws ChipException {
    byte[] any = read(count);
    for (int i = 0; i < count; i++) {
      int at = register + i;
      boolean result = at >= 0x12 && at <= 0x14; // conversions are any bytes at all
      if (!result && random.nextDouble() >= madness) {
        any[i] = shown(at);
      }
    }
    return any;
  }

  /** Powered up and ready, no calibration under way; else what was written. */
  private byte shown(int register) {
    return switch (register) {
      case 0x00 -> (byte) (registers[0x00] == 0x01 ? 0x01 : registers[0x00] | 0x28);
      case 0x02 -> (byte) (registers[0x02] & ~0x04);
      default -> registers[register];
    };
  }

  private void sometimesSilent() throws ChipException {
    if (random.nextDouble() < madness) {
      throw new ChipException("Silent.");
    }
  }
}
