package dev.cupwarden.core.limits;

/**
 * Feed that stands in the shared hose reaches no cup that may not have it: such a cup waits until
 * plain water has gone through into others, or to waste. A cup that gets feed waits while others
 * take their plain water. Neither waits for more than two hours.
 */
public final class HoseLimit implements Limit {
  /** Plain water in all but name, mg/L: mains water may hold as much. The grower's rule. */
  public static final double MOST_N_MG_PER_L = 5.0;

  /** Then whoever waits is watered, and told of: a dry cup is worse than a fed one. */
  public static final double LONGEST_WAIT_MIN = 120.0;

  @Override
  public Ruling rule(Case pass) {
    Case.HoseFacts hose = pass.cup().hose();
    if (hose.waitedMin() >= LONGEST_WAIT_MIN) {
      return Ruling.FREE;
    }
    if (hose.carriesNMgPerL() > hose.mostNMgPerL()) {
      return Ruling.veto(hose.carriesNMgPerL(), hose.mostNMgPerL());
    }
    return hose.othersFirst()
        ? Ruling.veto("waits", hose.waitedMin(), LONGEST_WAIT_MIN, "min")
        : Ruling.FREE;
  }
}
