package dev.cupwarden.core.limits;

/** Passes for tests, as if they had gone through every limit. */
public final class GrantedPass {
  private GrantedPass() {}

  public static AllowedPass of(String cup, double plainMl, double feedMl) {
    double strength = feedMl == 0 ? 0 : 0.5 * feedMl / (plainMl + feedMl);
    return new AllowedPass(cup, plainMl, feedMl, strength, "due");
  }
}
