package dev.cupwarden.simulator.chips;

import java.util.function.DoubleUnaryOperator;
import java.util.function.LongSupplier;

/**
 * The 24-bit bridge converter NAU7802, channel 1, from its data sheet (revision 1.7).
 *
 * <p>Ratiometric: the output code is input ÷ (½·VREF ÷ gain) · 2²³, so with the bridge fed by the
 * chip's own supply a bridge ratio r (V/V) gives r · gain · 2²⁴. Conversions run while digital and
 * analogue parts are powered and the start bit is set; each sets the ready bit, reading the result
 * clears it.
 *
 * <p>Not simulated: channel 2, the crystal, the DRDY pin, calibration by hand.
 */
public final class SimulatedNau7802 implements SimulatedChip {
  private static final double[] CONVERSIONS_PER_S = {10, 20, 40, 80, 80, 80, 80, 320};

  /** The digital part is ready about 200 µs after it is powered. */
  private static final long POWER_UP_NANOS = 200_000;

  /** From memory: an internal offset calibration takes a few conversions at 10 a second. */
  private static final long CALIBRATION_NANOS = 350_000_000;

  private final LongSupplier nanos;
  private final DoubleUnaryOperator ratioAtRate;
  private final int[] registers = new int[0x20];
  private int pointer;
  private long poweredAtNanos;
  private long startedAtNanos;
  private long calibratedAtNanos;
  private long conversionsRead;

  /**
   * A chip without power-up.
   *
   * @param nanos monotonic time
   * @param ratioAtRate the bridge's output over its supply, V/V, noise included, when sampled at a
   *     rate in conversions per second
   */
  public SimulatedNau7802(LongSupplier nanos, DoubleUnaryOperator ratioAtRate) {
    this.nanos = nanos;
    this.ratioAtRate = ratioAtRate;
    reset();
  }

  @Override
  public String part() {
    return "nau7802";
  }

  @Override
  public void losePower() {
    reset();
  }

  private void reset() {
    java.util.Arrays.fill(registers, 0);
    registers[0x07] = 0x80; // gain calibration 1.0
    registers[0x0E] = 0x80;
    registers[0x1F] = 0x0F; // revision code
    pointer = 0;
    conversionsRead = 0;
  }

  @Override
  public void write(int[] bytes) throws NotAcknowledged {
    if (bytes.length == 0) {
      return;
    }
    pointer = bytes[0];
    for (int i = 1; i < bytes.length; i++) {
      store(pointer++, bytes[i]);
    }
  }

  private void store(int register, int value) throws NotAcknowledged {
    if (register < 0 || register >= registers.length) {
      throw new NotAcknowledged();
    }
    switch (register) {
      case 0x00 -> powerControl(value);
      case 0x02 -> control2(value);
      case 0x12, 0x13, 0x14, 0x1F -> {} // results and revision are read-only
      default -> registers[register] = value;
    }
  }

  private void powerControl(int value) {
    if ((value & 0x01) != 0) { // RR holds all registers in reset
      reset();
      registers[0x00] = 0x01;
      return;
    }
    long now = nanos.getAsLong();
    boolean wasPowered = (registers[0x00] & 0x02) != 0;
    boolean wasStarted = running();
    registers[0x00] = value & 0xD6; // PUR and CR are the chip's own
    if (!wasPowered && (value & 0x02) != 0) {
      poweredAtNanos = now;
    }
    if (!wasStarted && running()) {
      startedAtNanos = now;
      conversionsRead = 0;
    }
  }

  private void control2(int value) {
    boolean rateChanged = ((registers[0x02] ^ value) & 0x70) != 0;
    registers[0x02] = value & 0xF3; // CALS and CAL_ERR are kept apart
    long now = nanos.getAsLong();
    if ((value & 0x04) != 0) {
      calibratedAtNanos = now + CALIBRATION_NANOS;
      startedAtNanos = calibratedAtNanos;
      conversionsRead = 0;
    } else if (rateChanged) {
      startedAtNanos = now;
      conversionsRead = 0;
    }
  }

  /** Digital and analogue part powered, cycle started. */
  private boolean running() {
    return (registers[0x00] & 0x16) == 0x16;
  }

  @Override
  public int[] read(int count) throws NotAcknowledged {
    int[] out = new int[count];
    for (int i = 0; i < count; i++) {
      out[i] = load(pointer++);
    }
    return out;
  }

  private int load(int register) throws NotAcknowledged {
    if (register < 0 || register >= registers.length) {
      throw new NotAcknowledged();
    }
    if (register == 0x12) {
      convert();
    }
    return switch (register) {
      case 0x00 -> registers[0x00] | (poweredUp() ? 0x08 : 0) | (resultWaiting() ? 0x20 : 0);
      case 0x02 -> registers[0x02] | (nanos.getAsLong() < calibratedAtNanos ? 0x04 : 0);
      default -> registers[register];
    };
  }

  private boolean poweredUp() {
    return (registers[0x00] & 0x02) != 0 && nanos.getAsLong() - poweredAtNanos >= POWER_UP_NANOS;
  }

  private boolean resultWaiting() {
    return running() && conversionsDone() > conversionsRead;
  }

  private long conversionsDone() {
    long runNanos = nanos.getAsLong() - startedAtNanos;
    return runNanos <= 0 ? 0 : (long) (runNanos * 1e-9 * rate());
  }

  private double rate() {
    return CONVERSIONS_PER_S[registers[0x02] >> 4 & 7];
  }

  /** The newest conversion into the result registers; the old one stays when none is new. */
  private void convert() {
    if (!resultWaiting()) {
      return;
    }
    conversionsRead = conversionsDone();
    int gain = 1 << (registers[0x01] & 7);
    double code = ratioAtRate.applyAsDouble(rate()) * gain * (1 << 24);
    int clipped = (int) Math.max(-0x800000, Math.min(0x7FFFFF, Math.rint(code)));
    registers[0x12] = clipped >> 16 & 0xFF;
    registers[0x13] = clipped >> 8 & 0xFF;
    registers[0x14] = clipped & 0xFF;
  }
}
