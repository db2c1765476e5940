package dev.cupwarden.core.limits;

/** No feed is stronger than the bench's ceiling. */
final class StrengthLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double ceiling = pass.bench().feeding().ceiling();
    return Ruling.cap(ceiling, ceiling, ceiling);
  }
}
