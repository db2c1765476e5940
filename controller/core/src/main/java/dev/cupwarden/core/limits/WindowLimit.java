package dev.cupwarden.core.limits;

/** Water in the light half of the day, so that the top of a cup dries before night. */
final class WindowLimit implements Limit {
  @Override
  public String code() {
    return "window";
  }

  @Override
  public Ruling rule(Case pass) {
    Case.WindowNow window = pass.bench().window();
    boolean wasAway = pass.cup().backAt() != null && pass.hoursSince(pass.cup().backAt()) < 24.0;
    boolean open = window.open() || (wasAway && window.openForReturned());
    return open ? Ruling.FREE : Ruling.veto(code(), window.minutesToOpening(), 0.0, "min");
  }
}
