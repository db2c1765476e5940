package dev.cupwarden.core.limits;

/** Passes for tests, as if they had gone through every limit. */
public final class GrantedPass {
  private GrantedPass() {}

  public static AllowedPass of(String cup, double plainMl, double feedMl) {
    double strength = feedMl == 0 ? 0 : 0.5 * feedMl / (plainMl + feedMl);
    return new AllowedPass(
        cup,
        new AllowedPass.Part("plain", plainMl),
        new AllowedPass.Part("feed", feedMl),
        strength,
        "due");
  }

  /** Of plain water, out of that tank. */
  public static AllowedPass from(String tank, String cup, double ml) {
    return new AllowedPass(
        cup, new AllowedPass.Part(tank, ml), new AllowedPass.Part(null, 0), 0, "due");
  }
}
