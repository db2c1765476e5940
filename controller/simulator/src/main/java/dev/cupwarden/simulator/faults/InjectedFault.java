package dev.cupwarden.simulator.faults;

/**
 * A kind of fault at one cup, how often it begins and how long it lasts. Frequencies are the
 * project's choice: a bench with two dozen cups should meet each common one a few times a winter.
 */
public enum InjectedFault {
  /** The scale does not answer for a while. */
  SCALE_SILENT(FaultLevel.COMMON, 90, 0.2, 4, 0, 0),
  /** Vibration or a loose wire: many times the noise. Size: times. */
  SCALE_NOISY(FaultLevel.COMMON, 200, 2, 24, 8, 25),
  /** A dripper half or wholly closed until it is mended. Size: the part that still comes. */
  VALVE_CLOGGED(FaultLevel.COMMON, 400, 240, 480, 0, 0.7),
  /** Rot spores or a wound. Size: rise of rot. */
  INFECTION(FaultLevel.COMMON, 900, 0, 0, 0.25, 0.5),
  /** The converter repeats its last value. */
  SCALE_STUCK(FaultLevel.ALL, 150, 2, 48, 0, 0),
  /** A dead scale, until it is replaced. */
  SCALE_DEAD(FaultLevel.ALL, 400, 48, 144, 0, 0),
  /** A valve that does not close. Size: mL/h. */
  VALVE_DRIPPING(FaultLevel.ALL, 400, 24, 96, 0.5, 4),
  /** Something leans on the cup or lies in it. Size: g. */
  LEANING(FaultLevel.ALL, 150, 0.5, 8, 10, 80),
  /** Two cups put back in each other's place. */
  SWAPPED(FaultLevel.ALL, 700, 240, 480, 0, 0);

  final FaultLevel from;
  final double meanDaysBetween;
  final double leastH;
  final double mostH;
  final double leastSize;
  final double mostSize;

  InjectedFault(
      FaultLevel from,
      double meanDaysBetween,
      double leastH,
      double mostH,
      double leastSize,
      double mostSize) {
    this.from = from;
    this.meanDaysBetween = meanDaysBetween;
    this.leastH = leastH;
    this.mostH = mostH;
    this.leastSize = leastSize;
    this.mostSize = mostSize;
  }
}
