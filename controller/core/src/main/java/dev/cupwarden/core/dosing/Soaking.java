package dev.cupwarden.core.dosing;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.Duration;

/**
 * How a cup takes water, as its last passes showed: halved passes and doubled soaks where water ran
 * past the mix, until a refill takes it well again. A mix that dried out may take none at all any
 * more: peat and coir then shed water, which runs down between mix and cup.
 *
 * @param passPart part of the usual pass, 0.25 to 1
 * @param shedPasses passes running that ran past the mix though it had room for them
 */
public record Soaking(double passPart, int shedPasses) {
  public static final Soaking USUAL = new Soaking(1.0, 0);

  /** So many are no accident. */
  public static final int SHEDS_AFTER = 3;

  private static final double LEAST_PART = 0.25;

  /** An older journal counts no passes. */
  @JsonCreator
  static Soaking read(
      @JsonProperty("pass_part") double passPart, @JsonProperty("shed_passes") Integer shedPasses) {
    return new Soaking(passPart, shedPasses == null ? 0 : shedPasses);
  }

  /**
   * Water ran through.
   *
   * @param hadRoom whether the mix had room for what ran through
   */
  public Soaking afterBypass(boolean hadRoom) {
    return new Soaking(Math.max(LEAST_PART, passPart / 2.0), hadRoom ? shedPasses + 1 : shedPasses);
  }

  /** Most of a pass stayed. */
  public Soaking afterArrival() {
    return equals(USUAL) ? this : new Soaking(Math.min(1.0, passPart * 2.0), 0);
  }

  /** A person has soaked it, or looked. */
  public Soaking soaked() {
    return new Soaking(passPart, 0);
  }

  /** Whether the mix sheds water: passes would run into the tray. */
  public boolean sheds() {
    return shedPasses >= SHEDS_AFTER;
  }

  /** The least time between two passes. */
  public Duration soak(Duration usual) {
    return passPart < 1.0 ? usual.multipliedBy(2) : usual;
  }
}
