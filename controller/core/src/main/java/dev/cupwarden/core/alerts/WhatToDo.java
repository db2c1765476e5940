package dev.cupwarden.core.alerts;

import java.util.List;
import java.util.Map;

/** One sentence for the person, for each alert of the contract. */
public final class WhatToDo {
  private static final Map<String, String> SENTENCES =
      Map.ofEntries(
          Map.entry(
              "wet-too-long",
              "Look at the cup: tip out what stands in it, give it warmth and air; nothing is"
                  + " watered until it dries."),
          Map.entry("near-dry", "Look why it was not watered, and water it by hand if need be."),
          Map.entry(
              "rot-suspected",
              "It uses less than expected while wet: look at its roots and wood for rot."),
          Map.entry("scale-stuck", "Lift the cup and put it back; check the scale's wires."),
          Map.entry("scale-noisy", "Look for draught, touching leaves or a loose wire."),
          Map.entry("scale-out-of-range", "Look at what stands on the scale, and at its wires."),
          Map.entry("scale-silent", "Check the scale's plug and wires; its cup is not watered."),
          Map.entry(
              "scale-drifting",
              "Its scale falls faster than the cup can dry: soak and drain the cup, put it back and"
                  + " say that it is drained; or try the scale with a known mass, calibrate it and"
                  + " clear the cup. It is not watered by its weight before."),
          Map.entry("cup-away", "Put the cup back, or say that it stays away."),
          Map.entry(
              "cups-swapped",
              "Put the two cups back in their own places. If that is not told as over within half an"
                  + " hour, clear both."),
          Map.entry(
              "dose-short",
              "Look at tube, valve and tank of the cup, then clear it; it is not watered before."),
          Map.entry("dose-over", "Look whether somebody watered it too, or the pump ran on."),
          Map.entry(
              "valve-leaking",
              "Close the tank's tap and look at the valves, then clear it; nothing is pumped"
                  + " before."),
          Map.entry(
              "pump-running-on",
              "Switch the pump's supply off and look at its driver, then clear it."),
          Map.entry(
              "blind-ration",
              "Mend the scale: the cup is watered by what its neighbours lose, and only for as long as"
                  + " what it holds can be known by that."),
          Map.entry("sensor-dead", "Check the sensor's plug and wires."),
          Map.entry("tank-unsuited", "Mix what the recipe says into the tank."),
          Map.entry("tray-full", "Empty the tray, then clear it for the whole bench."),
          Map.entry("tank-low", "Fill the tank, and say so."),
          Map.entry(
              "tank-empty",
              "Fill the tank, and say so: cups that need what was in it get nothing before."),
          Map.entry("feed-old", "Use the rest on other plants and mix the tank anew."),
          Map.entry(
              "leak",
              "Switch off at the wall if water is near the mains, find where it comes from, then clear"
                  + " it for the whole bench; nothing is pumped before."),
          Map.entry("cold", "Warm the roots, or put a hold on the bench until it is warmer."),
          Map.entry("frost", "Move the cups out of the frost; nothing is watered."),
          Map.entry("heat", "Shade and air the bench."),
          Map.entry("salts-high", "Flush the cup with plain water and empty its tray."),
          Map.entry(
              "look-at-roots", "It uses more than it did: look for roots, and say what you saw."),
          Map.entry("pot-on", "It has outgrown its cup: pot it on."),
          Map.entry(
              "weigh-drained",
              "Its weight at capacity is weeks old or in doubt: tip out what stands under it, soak it,"
                  + " let it drain for an hour, then weigh it drained."),
          Map.entry("clock", "Set the clock or connect the network: until then rescue only."),
          Map.entry(
              "notices-failing",
              "Look at the host's mail or webhook settings and its network; what was not sent is"
                  + " tried again each hour."),
          Map.entry("store-full", "Free space on the controller's disk."),
          Map.entry("controller-silent", "Look whether the controller has power and network."),
          Map.entry("input-set-aside", "Look at the orders beside the journal, then delete them."),
          Map.entry("two-controllers", "Stop one of them, or give it another name."));

  /** Where many cups have one cause, that is what to look for. */
  private static final Map<String, String> TOGETHER =
      Map.of(
          "near-dry",
          "Look for what holds them all: a hold, a cold room, an empty tank, a pump that stands.",
          "scale-silent",
          "Check the bus or the multiplexer that these scales share, and its supply.",
          "scale-noisy",
          "Look for draught, a fan or a pump that shakes the bench.",
          "scale-stuck",
          "Check the supply and the bus that these scales share.",
          "scale-out-of-range",
          "Check the supply and the bus that these scales share.",
          "wet-too-long",
          "Give the room warmth and air; nothing is watered until they dry.",
          "blind-ration",
          "Mend the scales: rooted cups are watered for as long as what they hold can be known by"
              + " other ways, the others for three days; then they get nothing more.",
          "cup-away",
          "Put the cups back, or say that they stay away.");

  /** Of cups that nobody weighs. */
  private static final String WEIGH_THEM =
      "Their scales are not believed, and they may be near their dry lines: weigh them, and water"
          + " them by hand if need be.";

  private WhatToDo() {}

  /** What to do about that condition. */
  static String about(Condition condition) {
    return condition.whatToDo() == null ? about(condition.code()) : condition.whatToDo();
  }

  /**
   * What to do about that alert of several cups.
   *
   * @param cups in order of name; none once it has ended
   */
  static String together(Condition condition, List<String> cups) {
    String code = condition.code();
    String sentence = TOGETHER.getOrDefault(code, about(code));
    if (cups.isEmpty()) {
      return sentence;
    }
    String worst = code.equals(NearDry.CODE) ? NearDry.worst(condition.severity()) : "";
    return String.join(", ", cups) + ": " + worst + (condition.bound() ? WEIGH_THEM : sentence);
  }

  /** What to do about that alert. */
  public static String about(String code) {
    String sentence = SENTENCES.get(code);
    if (sentence == null) {
      throw new IllegalArgumentException("no such alert: " + code);
    }
    return sentence;
  }
}
