package dev.cupwarden.core.limits;

/** Cold roots take up almost nothing: what is given would only stand. */
final class ColdLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double rootC = pass.bench().rootC();
    double coldC = pass.bench().climate().coldC();
    return rootC < coldC ? Ruling.veto(rootC, coldC) : Ruling.FREE;
  }
}
