package dev.cupwarden.core.limits;

import dev.cupwarden.core.estimate.Distrust;

/** Nothing waters on a weight that is in doubt. */
final class UntrustedLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    if (pass.cup().estimate().trusted()) {
      return Ruling.FREE;
    }
    Distrust doubt = pass.cup().estimate().distrust().get();
    return Ruling.veto(doubt.code().word(), doubt.value(), doubt.threshold(), doubt.code().unit());
  }
}
