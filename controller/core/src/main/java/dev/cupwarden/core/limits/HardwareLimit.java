package dev.cupwarden.core.limits;

import dev.cupwarden.core.dosing.Latch;

/** Nothing runs over a leak, with a latch that waits for a person, or from an empty tank. */
final class HardwareLimit implements Limit {
  @Override
  public String code() {
    return "hardware";
  }

  @Override
  public Ruling rule(Case pass) {
    if (pass.bench().leak()) {
      return Ruling.veto(code(), 1.0, 0.0, "leak");
    }
    Latch latch = pass.bench().latch() != null ? pass.bench().latch() : pass.cup().latch();
    if (latch != null) {
      return Ruling.veto(code(), latch.value(), latch.threshold(), latch.code());
    }
    double tankMl = pass.bench().tankMl();
    return tankMl < pass.proposal().leastMl()
        ? Ruling.veto(code(), tankMl, pass.proposal().leastMl(), "mL")
        : Ruling.FREE;
  }
}
