package dev.cupwarden.core.limits;

import dev.cupwarden.core.watering.Refill;
import java.time.Duration;

/**
 * Between the passes of a flush there is no more time than lets the last one run in: soaked through
 * it carries salts out, dried back it would not. The whole of it comes within two hours.
 */
final class FlushSoakLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    Duration usual = pass.bench().watering().soak();
    return SoakLimit.within(
        pass, usual.compareTo(Refill.FLUSH_SOAK) < 0 ? usual : Refill.FLUSH_SOAK);
  }
}
