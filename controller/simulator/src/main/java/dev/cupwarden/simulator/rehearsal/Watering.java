package dev.cupwarden.simulator.rehearsal;

/**
 * One pass that a policy wants given now.
 *
 * @param cup its place in the list of cups
 * @param plainMl from the plain tank
 * @param feedMl from the feed tank
 * @param strength label strength of the blend
 * @param why the cause as the policy names it
 */
public record Watering(int cup, double plainMl, double feedMl, double strength, String why) {
  double totalMl() {
    return plainMl + feedMl;
  }
}
