package dev.cupwarden.core.limits;

/**
 * Water in the light half of the day, so that the top of a cup dries before night. A cup that came
 * back on that day has a little longer.
 */
final class WindowLimit implements Limit {
  /** Back since yesterday evening is back since yesterday. */
  private static final double SAME_DAY_H = 12.0;

  @Override
  public Ruling rule(Case pass) {
    Case.WindowNow window = pass.bench().window();
    boolean wasAway =
        pass.cup().backAt() != null && pass.hoursSince(pass.cup().backAt()) < SAME_DAY_H;
    boolean open = window.open() || (wasAway && window.openForReturned());
    return open ? Ruling.FREE : Ruling.veto(window.minutesToOpening(), 0.0);
  }
}
