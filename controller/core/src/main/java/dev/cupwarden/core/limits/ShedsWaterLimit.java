package dev.cupwarden.core.limits;

import dev.cupwarden.core.dosing.Soaking;

/** A mix that sheds water takes none from above: a person stands the cup in water. */
final class ShedsWaterLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    Soaking soaking = pass.cup().soaking();
    return soaking.sheds() ? Ruling.veto(soaking.shedPasses(), Soaking.SHEDS_AFTER) : Ruling.FREE;
  }
}
