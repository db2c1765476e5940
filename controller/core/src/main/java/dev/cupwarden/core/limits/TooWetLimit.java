package dev.cupwarden.core.limits;

/** No pass takes a cup past its wet line. */
final class TooWetLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double roomMl = pass.cup().roomToWetMl();
    if (Double.isNaN(roomMl)) {
      return Ruling.FREE;
    }
    return Ruling.cap(roomMl, pass.cup().depletion(), pass.cup().lines().wet());
  }
}
