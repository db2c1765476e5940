package dev.cupwarden.core.substrate;

import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Vessel;

/** The cups, mixes and curves that tests of several rooms weigh. */
public final class ExampleCups {
  public static final Vessel TALL = new Vessel("tall", 92, 60, 112, 13);
  public static final Vessel SHORT = new Vessel("short", 80, 55, 78, 9);
  public static final Mix COIR_PERLITE =
      new Mix("coir-perlite", 0.82, 0.12, 0.22, 1.55, 0.10, 0.10, 0.10);

  /** Synthetic curves: fine and peaty, like peat with perlite, coarse. No measured media. */
  static final VanGenuchten S1 = new VanGenuchten(0.90, 0.20, 0.10, 2.0);

  static final VanGenuchten S2 = new VanGenuchten(0.85, 0.15, 0.25, 1.6);
  static final VanGenuchten S3 = new VanGenuchten(0.80, 0.10, 0.50, 1.8);

  static final TaperedCup CUP_A = new TaperedCup(2.5, 3.75, 8);
  static final TaperedCup CUP_B = new TaperedCup(3.0, 4.5, 11);
  static final TaperedCup CUP_C = new TaperedCup(3.25, 4.75, 12);
  static final TaperedCup CUP_B_INVERTED = new TaperedCup(4.5, 3.0, 11);

  private ExampleCups() {}

  static VanGenuchten curve(String name) {
    return switch (name) {
      case "S1" -> S1;
      case "S2" -> S2;
      case "S3" -> S3;
      default -> throw new IllegalArgumentException(name);
    };
  }

  static TaperedCup cup(String name) {
    return switch (name) {
      case "A" -> CUP_A;
      case "B" -> CUP_B;
      case "C" -> CUP_C;
      case "B inverted" -> CUP_B_INVERTED;
      default -> throw new IllegalArgumentException(name);
    };
  }
}
