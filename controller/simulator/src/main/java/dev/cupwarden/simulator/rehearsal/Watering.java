package dev.cupwarden.simulator.rehearsal;

/**
 * One pass that a policy wants given now.
 *
 * @param cup its place in the list of cups; below 0: out of the waste valve
 * @param plainMl from the plain tank
 * @param feedMl from the feed tank
 * @param strength label strength of what leaves the drip end, as the policy reckons it
 * @param why the cause as the policy names it
 */
public record Watering(int cup, double plainMl, double feedMl, double strength, String why) {
  boolean toWaste() {
    return cup < 0;
  }

  double totalMl() {
    return plainMl + feedMl;
  }
}
