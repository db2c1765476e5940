package dev.cupwarden.core.limits;

/**
 * Cold roots take up almost nothing: what is given would only stand. Roots go by their thermometer;
 * where none speaks for them, by the air.
 */
final class ColdLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double rootsC = pass.cup().rootsC();
    double coldC = pass.bench().climate().coldC();
    return rootsC < coldC ? Ruling.veto(rootsC, coldC) : Ruling.FREE;
  }
}
