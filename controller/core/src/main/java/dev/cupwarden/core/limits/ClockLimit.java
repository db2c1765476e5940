package dev.cupwarden.core.limits;

/** Without a trusted clock neither window nor ledger means anything: rescue only. */
final class ClockLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    return pass.bench().clockInDoubt() ? Ruling.veto(1.0, 0.0) : Ruling.FREE;
  }
}
