package dev.cupwarden.core.limits;

/** Without a trusted clock neither window nor ledger means anything: rescue only. */
final class ClockLimit implements Limit {
  @Override
  public String code() {
    return "clock";
  }

  @Override
  public Ruling rule(Case pass) {
    return pass.bench().clockTrusted() ? Ruling.FREE : Ruling.veto(code(), 0.0, 1.0, "");
  }
}
