package dev.cupwarden.board;

import java.time.Duration;

/**
 * The 24-bit bridge converter NAU7802 (data sheet revision 1.7, sections 8 and 11): bridge fed by
 * the chip's regulator at 3.0 V, gain 128, 10 conversions a second, the rate with the best
 * rejection of mains hum.
 */
final class Nau7802 implements WeightConverter {
  /** Its one address; more than one chip needs a switch. */
  static final int ADDRESS = 0x2A;

  private static final int PU_CTRL = 0x00;
  private static final int CTRL1 = 0x01;
  private static final int CTRL2 = 0x02;
  private static final int ADCO_B2 = 0x12;
  private static final int ADC = 0x15;
  private static final int PGA_PWR = 0x1C;

  // PU_CTRL
  private static final int REGISTER_RESET = 0x01;
  private static final int POWER_DIGITAL = 0x02;
  private static final int POWER_ANALOG = 0x04;
  private static final int POWERED_UP = 0x08;
  private static final int CYCLE_START = 0x10;
  private static final int CYCLE_READY = 0x20;
  private static final int INTERNAL_SUPPLY = 0x80;
  private static final int RUN = POWER_DIGITAL | POWER_ANALOG | CYCLE_START | INTERNAL_SUPPLY;

  private static final int REGULATOR_3V0_GAIN_128 = 0b101 << 3 | 0b111;
  private static final int RATE_10_PER_S = 0;
  private static final int CALIBRATE = 0x04;
  private static final int CALIBRATION_FAILED = 0x08;
  private static final int CHOPPER_CLOCK_OFF = 0x30;
  private static final int CAPACITOR_ON = 0x80;

  private static final Duration PERIOD = Duration.ofMillis(100);
  private static final Duration POWER_UP_WITHIN = Duration.ofMillis(50);

  /** From memory: the regulator and the bridge need a quarter of a second to be steady. */
  private static final Duration SUPPLY_SETTLES = Duration.ofMillis(250);

  private static final Duration CALIBRATES_WITHIN = Duration.ofSeconds(1);

  /** The digital filter needs four conversions to forget what was before. */
  private static final Duration FILTER_SETTLES = PERIOD.multipliedBy(4);

  private enum Phase {
    OFF,
    SUPPLY_SETTLING,
    CALIBRATING,
    FILTER_SETTLING,
    RUNNING
  }

  private final I2cPort port;
  private final Pace pace;
  private Phase phase = Phase.OFF;
  private long phaseBeganNanos;

  Nau7802(I2cPort port, Pace pace) {
    this.port = port;
    this.pace = pace;
  }

  @Override
  public Duration period() {
    return PERIOD;
  }

  @Override
  public void begin() throws ChipException {
    enter(Phase.OFF);
    port.write(PU_CTRL, REGISTER_RESET);
    port.write(PU_CTRL, POWER_DIGITAL);
    awaitPowerUp();
    port.write(PU_CTRL, POWER_DIGITAL | POWER_ANALOG | INTERNAL_SUPPLY);
    configure(CTRL1, REGULATOR_3V0_GAIN_128);
    configure(CTRL2, RATE_10_PER_S);
    configure(ADC, CHOPPER_CLOCK_OFF);
    configure(PGA_PWR, CAPACITOR_ON);
    enter(Phase.SUPPLY_SETTLING);
  }

  private void awaitPowerUp() throws ChipException {
    long deadline = pace.nanos() + POWER_UP_WITHIN.toNanos();
    while ((register(PU_CTRL) & POWERED_UP) == 0) {
      if (pace.nanos() >= deadline) {
        throw new ChipException("The converter does not power up.");
      }
      pace.pause(Duration.ofMillis(1));
    }
  }

  private void configure(int register, int value) throws ChipException {
    port.write(register, value);
    int shown = register(register);
    if (shown != value) {
      throw new ChipException(
          "The converter's register 0x%02x shows 0x%02x where 0x%02x was written."
              .formatted(register, shown, value));
    }
  }

  @Override
  public boolean settled() throws ChipException {
    switch (phase) {
      case OFF -> throw new ChipException("The converter was not begun.");
      case SUPPLY_SETTLING -> {
        if (inPhaseFor(SUPPLY_SETTLES)) {
          port.write(PU_CTRL, RUN);
          port.write(CTRL2, RATE_10_PER_S | CALIBRATE);
          enter(Phase.CALIBRATING);
        }
      }
      case CALIBRATING -> awaitCalibration();
      case FILTER_SETTLING -> {
        if (inPhaseFor(FILTER_SETTLES)) {
          port.readFrom(ADCO_B2, 3); // a conversion of the old state, thrown away
          enter(Phase.RUNNING);
        }
      }
      case RUNNING -> {}
    }
    return phase == Phase.RUNNING;
  }

  private void awaitCalibration() throws ChipException {
    int control = register(CTRL2);
    if ((control & CALIBRATE) == 0) {
      if ((control & CALIBRATION_FAILED) != 0) {
        throw new ChipException("The converter's calibration failed.");
      }
      enter(Phase.FILTER_SETTLING);
    } else if (inPhaseFor(CALIBRATES_WITHIN)) {
      throw new ChipException("The converter's calibration does not end.");
    }
  }

  @Override
  public boolean ready() throws ChipException, SupplyLostException {
    int control = register(PU_CTRL);
    if ((control & REGISTER_RESET) != 0 || (control & RUN) != RUN) {
      enter(Phase.OFF);
      throw new SupplyLostException();
    }
    return (control & CYCLE_READY) != 0;
  }

  @Override
  public int counts() throws ChipException {
    byte[] code = port.readFrom(ADCO_B2, 3);
    return Counts24.inRange(Counts24.of(code[0], code[1], code[2]));
  }

  private int register(int register) throws ChipException {
    return port.readFrom(register, 1)[0] & 0xFF;
  }

  private void enter(Phase next) {
    phase = next;
    phaseBeganNanos = pace.nanos();
  }

  private boolean inPhaseFor(Duration time) {
    return pace.nanos() - phaseBeganNanos >= time.toNanos();
  }
}
