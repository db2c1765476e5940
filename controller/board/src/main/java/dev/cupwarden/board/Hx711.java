package dev.cupwarden.board;

import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import java.time.Duration;

/**
 * The 24-bit bridge converter HX711 (data sheet, "Serial Interface"), clocked bit by bit over two
 * lines: channel A at gain 128, 10 conversions a second.
 *
 * <p>A warning to builders: its clock must not stay high for longer than 60 µs, or the chip powers
 * down and begins anew. A program on an ordinary kernel is held up for longer now and then, so each
 * high pulse is timed, and a conversion with a long one is thrown away and asked for again. The I2C
 * converter has no such trouble: prefer it.
 */
final class Hx711 implements WeightConverter {
  /** Data sheet: 60 µs of high powers down; a little is kept for what the timing itself costs. */
  private static final long LONGEST_HIGH_NANOS = 55_000;

  private static final int DATA_BITS = 24;

  /** The 25th pulse chooses channel A at gain 128 for the next conversion. */
  private static final int PULSES = 25;

  private static final int ATTEMPTS = 3;
  private static final Duration PERIOD = Duration.ofMillis(100);

  /** Data sheet: 400 ms at 10 a second after power-up. */
  private static final Duration SETTLES = Duration.ofMillis(400);

  private static final Duration POWER_DOWN = Duration.ofMillis(1);

  private final DigitalOutput clock;
  private final DigitalInput data;
  private final Pace pace;
  private long begunNanos;
  private int heldUp;

  Hx711(DigitalOutput clock, DigitalInput data, Pace pace) {
    this.clock = clock;
    this.data = data;
    this.pace = pace;
  }

  @Override
  public Duration period() {
    return PERIOD;
  }

  @Override
  public void begin() throws ChipException {
    heldUp = 0;
    clock(DigitalState.HIGH); // powers down
    pace.pause(POWER_DOWN);
    clock(DigitalState.LOW);
    begunNanos = pace.nanos();
  }

  @Override
  public boolean settled() {
    return pace.nanos() - begunNanos >= SETTLES.toNanos();
  }

  /** Data low: a conversion waits. */
  @Override
  public boolean ready() throws ChipException {
    return data().isLow();
  }

  @Override
  public int counts() throws ChipException {
    int code = 0;
    boolean late = false;
    for (int pulse = 0; pulse < PULSES; pulse++) {
      long rose = pace.nanos();
      clock(DigitalState.HIGH);
      clock(DigitalState.LOW);
      late |= pace.nanos() - rose > LONGEST_HIGH_NANOS;
      if (pulse < DATA_BITS) {
        code = code << 1 | (data().isHigh() ? 1 : 0);
      }
    }
    if (late) {
      return again();
    }
    heldUp = 0;
    if (data().isLow()) {
      throw new ChipException("The converter's data line stays low: it is stuck.");
    }
    return Counts24.inRange(Counts24.of((byte) (code >> 16), (byte) (code >> 8), (byte) code));
  }

  /** A pulse was too long: the chip may have begun anew, and the code is worth nothing. */
  private int again() throws ChipException {
    heldUp++;
    if (heldUp >= ATTEMPTS) {
      heldUp = 0;
      throw new ChipException(
          "The converter was clocked too slowly %d times running: the processor is too busy."
              .formatted(ATTEMPTS));
    }
    pace.pause(SETTLES);
    long deadline = pace.nanos() + PERIOD.multipliedBy(3).toNanos();
    while (!ready()) {
      if (pace.nanos() >= deadline) {
        throw new ChipException("The converter gives no new conversion.");
      }
      pace.pause(Duration.ofMillis(5));
    }
    return counts();
  }

  private void clock(DigitalState level) throws ChipException {
    try {
      clock.state(level);
    } catch (Pi4JException e) {
      throw new ChipException("The converter's clock line cannot be switched.", e);
    }
  }

  private DigitalState data() throws ChipException {
    try {
      return data.state();
    } catch (Pi4JException e) {
      throw new ChipException("The converter's data line cannot be read.", e);
    }
  }
}
