package dev.cupwarden.core.limits;

import dev.cupwarden.core.feeding.SaltBalance;

/** Where salts stand high, plain water only. */
final class SaltLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double saltMsPerCm = pass.cup().saltMsPerCm();
    return saltMsPerCm > SaltBalance.MOST_MS_PER_CM
        ? Ruling.veto(saltMsPerCm, SaltBalance.MOST_MS_PER_CM)
        : Ruling.FREE;
  }
}
