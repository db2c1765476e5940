package dev.cupwarden.core.limits;

/** No pass takes a cup past its wet line. */
final class TooWetLimit implements Limit {
  @Override
  public String code() {
    return "too-wet";
  }

  @Override
  public Ruling rule(Case pass) {
    double roomMl = pass.cup().roomToWetMl();
    if (Double.isNaN(roomMl)) {
      return Ruling.FREE;
    }
    return Ruling.cap(
        roomMl, code(), pass.cup().depletion(), pass.cup().lines().wet(), "depletion");
  }
}
