package dev.cupwarden.core.limits;

import dev.cupwarden.core.messages.Reason;

/** Nothing waters on a weight that is in doubt. */
final class UntrustedLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    if (pass.cup().estimate().trusted()) {
      return Ruling.FREE;
    }
    Reason doubt = pass.cup().estimate().distrust().get();
    return Ruling.veto(doubt.code(), doubt.value(), doubt.threshold(), doubt.unit());
  }
}
