package dev.cupwarden.simulator;

import dev.cupwarden.simulator.physics.SimulatedCup;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Where the cups stand, and what a person does to them. A place is a scale with its valve and bears
 * the name of the cup that belongs there.
 */
public final class CupStand {
  private final Map<String, SimulatedCup> cups;
  private final Map<String, String> cupAtPlace = new TreeMap<>();
  private final Set<String> lifted = new HashSet<>();
  private final Map<String, Double> leaningG = new TreeMap<>();
  private double spilledMl;

  CupStand(Map<String, SimulatedCup> cups) {
    this.cups = cups;
    cups.keySet().forEach(cup -> cupAtPlace.put(cup, cup));
  }

  /** A new cup stands at a place of its own name. */
  void place(String cup) {
    cupAtPlace.put(cup, cup);
  }

  /** What belonged there is gone for good. */
  void takeOut(String cup) {
    cupAtPlace.remove(cup);
    lifted.remove(cup);
    leaningG.remove(cup);
  }

  /** Takes a cup off its place. */
  public void lift(String cup) {
    known(cup);
    lifted.add(cup);
  }

  /** Puts it back where it was. */
  public void putBack(String cup) {
    known(cup);
    lifted.remove(cup);
  }

  /** Puts each of two cups in the other's place. */
  public void swap(String one, String other) {
    String placeOfOne = placeOf(one);
    String placeOfOther = placeOf(other);
    cupAtPlace.put(placeOfOne, other);
    cupAtPlace.put(placeOfOther, one);
  }

  /** Waters a cup by hand, mL, with feed of that part of the label's strength. */
  public void water(String cup, double ml, double strength) {
    known(cup).give(ml, strength);
  }

  /** Something leans on what stands at a place, g; 0 takes it away. */
  public void lean(String place, double grams) {
    known(place);
    leaningG.put(place, grams);
  }

  /** Water that fell where no cup stood, mL. */
  public double spilledMl() {
    return spilledMl;
  }

  double loadAt(String place) {
    String cup = cupAtPlace.get(place);
    double grossG = lifted.contains(cup) ? 0 : cups.get(cup).grossG();
    return grossG + leaningG.getOrDefault(place, 0.0);
  }

  void pour(String place, double ml, double strength) {
    String cup = cupAtPlace.get(place);
    if (lifted.contains(cup)) {
      spilledMl += ml;
    } else {
      cups.get(cup).give(ml, strength);
    }
  }

  private String placeOf(String cup) {
    return cupAtPlace.entrySet().stream()
        .filter(entry -> entry.getValue().equals(cup))
        .map(Map.Entry::getKey)
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("No cup " + cup));
  }

  private SimulatedCup known(String cup) {
    SimulatedCup found = cups.get(cup);
    if (found == null) {
      throw new IllegalArgumentException("No cup " + cup);
    }
    return found;
  }
}
