package dev.cupwarden.core.dosing;

import java.time.Duration;

/**
 * How a cup takes water, as its last passes showed: halved passes and doubled soaks where water ran
 * past the mix, until a refill takes it well again.
 *
 * @param passPart part of the usual pass, 0.25 to 1
 */
public record Soaking(double passPart) {
  public static final Soaking USUAL = new Soaking(1.0);

  private static final double LEAST_PART = 0.25;

  public Soaking afterBypass() {
    return new Soaking(Math.max(LEAST_PART, passPart / 2.0));
  }

  public Soaking afterArrival() {
    return passPart < 1.0 ? new Soaking(Math.min(1.0, passPart * 2.0)) : this;
  }

  /** The least time between two passes. */
  public Duration soak(Duration usual) {
    return passPart < 1.0 ? usual.multipliedBy(2) : usual;
  }
}
