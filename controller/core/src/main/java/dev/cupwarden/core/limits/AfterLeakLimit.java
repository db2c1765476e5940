package dev.cupwarden.core.limits;

import dev.cupwarden.core.dosing.LeakWatch;

/** After a leak that a person has not cleared, water goes to cups past their dry line alone. */
final class AfterLeakLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    LeakWatch leak = pass.bench().leak();
    return leak.onRescue()
        ? Ruling.veto("leak-rescue", leak.givenMl(), leak.mostMl(), "mL")
        : Ruling.FREE;
  }
}
