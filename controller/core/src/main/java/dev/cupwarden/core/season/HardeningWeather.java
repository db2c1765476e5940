package dev.cupwarden.core.season;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Whether leaves that grew indoors may be out. Tender plants stay in on windy days and below 45 °F
 * (California Master Gardener Handbook, second edition, as quoted at
 * https://mgscchelpdesk.zohodesk.com/portal/en/kb/articles/hardening-plants). That wind begins
 * where small trees sway, and that a day past the bench's own heat line is too hot for them, are
 * our choice. What a thermometer shows outdoors says what it is now; a person's word says what the
 * day will bring, wind and heat included: a thermometer in the sun shows more than the air.
 */
public final class HardeningWeather {
  /** 45 °F. */
  public static final double FROM_C = (45.0 - 32.0) / 1.8;

  private HardeningWeather() {}

  /** What stands against it. */
  public enum Cause {
    /** By the thermometer, now. */
    COLD_NOW,
    /** By a person's word, at some hour of the day. */
    COLD,
    /** Likewise. */
    HOT,
    /** Likewise. */
    WIND
  }

  /**
   * A cause with its figures.
   *
   * @param valueC what was found or told; of wind the least that was told
   * @param boundC what it was held against
   */
  public record Against(Cause cause, double valueC, double boundC) {}

  /**
   * The first cause that stands against it; none where nobody told of any.
   *
   * @param nowC by a thermometer outdoors, where one was heard of late
   * @param today what a person told of this day
   * @param heatC above it the bench is too hot
   */
  public static Optional<Against> against(
      OptionalDouble nowC, Optional<DayForetold> today, double heatC) {
    return byThermometer(nowC).or(() -> today.flatMap(told -> byWord(told, heatC)));
  }

  /** By the thermometer alone. */
  public static Optional<Against> byThermometer(OptionalDouble nowC) {
    return nowC.isPresent() && nowC.getAsDouble() < FROM_C
        ? Optional.of(new Against(Cause.COLD_NOW, nowC.getAsDouble(), FROM_C))
        : Optional.empty();
  }

  /** By a person's word alone. */
  public static Optional<Against> byWord(DayForetold told, double heatC) {
    if (told.leastC() < FROM_C) {
      return Optional.of(new Against(Cause.COLD, told.leastC(), FROM_C));
    }
    if (told.wind() == DayForetold.Wind.STRONG) {
      return Optional.of(new Against(Cause.WIND, told.leastC(), FROM_C));
    }
    return told.mostC() > heatC
        ? Optional.of(new Against(Cause.HOT, told.mostC(), heatC))
        : Optional.empty();
  }
}
