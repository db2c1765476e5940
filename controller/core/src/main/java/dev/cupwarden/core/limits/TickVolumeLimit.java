package dev.cupwarden.core.limits;

/**
 * What the pump can give before the next look at the cups. A longer round would keep them waiting,
 * and the soak of its last cups would be counted from long before their water came. The first pass
 * of a round is always one.
 */
public final class TickVolumeLimit implements Limit {
  /**
   * Whether no further pass fits into a round.
   *
   * @param givenMl that it has put out so far
   * @param mostMl that the pump gives within a tick
   * @param passMl the bench's pass
   */
  public static boolean full(double givenMl, double mostMl, double passMl) {
    return givenMl > 0.0 && givenMl > mostMl - passMl;
  }

  @Override
  public Ruling rule(Case pass) {
    Case.Round round = pass.bench().round();
    return full(round.givenMl(), round.mostMl(), pass.bench().watering().passMl())
        ? Ruling.veto(round.givenMl(), round.mostMl())
        : Ruling.FREE;
  }
}
