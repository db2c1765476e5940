package dev.cupwarden.core.limits;

/** No pass takes a cup past its refill line. */
final class RefillLineLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double roomMl = pass.cup().roomMl();
    return Ruling.cap(roomMl, pass.proposal().wantMl(), roomMl, "refill-line");
  }
}
