package dev.cupwarden.simulator.rehearsal;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a rehearsal came to, by the simulator's truth: one part for each figure of its JSON. Hours
 * are cup-hours of living cups. The order in JSON is named, since a virtual machine lists methods
 * in another order at each start, and the same seed gives the same bytes.
 *
 * @param cupHours lived by all cups
 * @param wetHours past the wet line: less air than the mix's least
 * @param dryHours past the dry line of the true root stage
 * @param lostRotted cups that rotted
 * @param lostDried cups that wilted to death
 * @param waterMl given by the policy and by hand
 * @param runoffMl run into trays or onto empty places
 * @param nMg nitrogen given
 * @param heldNMg of that, what is left in the mixes of living cups at the end
 * @param unfedNMg of that, what the pump brought to cups whose roots were struck or white
 * @param labelNMg nitrogen that the label would have allowed from the first tanned roots on
 * @param ecMsPerCm mean at the end over living cups, of the water held at capacity
 * @param highestEcMsPerCm the saltiest cup's
 * @param passes given
 * @param violations limits broken
 * @param fedTooEarly passes with feed before roots were toughened
 * @param toughened cups that came to toughened roots or further
 * @param leafCm2 leaf of all living cups at the end
 * @param alerts by code
 */
@JsonPropertyOrder({"lost", "in_band", "leaching_fraction", "wet_hours_per_cup_week"})
public record Figures(
    double cupHours,
    double wetHours,
    double dryHours,
    int cups,
    int lostRotted,
    int lostDried,
    double waterMl,
    double runoffMl,
    double nMg,
    double heldNMg,
    double unfedNMg,
    double labelNMg,
    double ecMsPerCm,
    double highestEcMsPerCm,
    int passes,
    int violations,
    int fedTooEarly,
    int toughened,
    double leafCm2,
    SortedMap<String, AlertCount> alerts) {

  /** Both together, as for one larger bench. */
  public Figures plus(Figures other) {
    SortedMap<String, AlertCount> both = new TreeMap<>();
    for (Map<String, AlertCount> each : List.of(alerts, other.alerts)) {
      each.forEach((code, count) -> both.computeIfAbsent(code, key -> new AlertCount()).add(count));
    }
    int living = cups - lost();
    int otherLiving = other.cups - other.lost();
    double ecSum = ecMsPerCm * living + other.ecMsPerCm * otherLiving;
    return new Figures(
        cupHours + other.cupHours,
        wetHours + other.wetHours,
        dryHours + other.dryHours,
        cups + other.cups,
        lostRotted + other.lostRotted,
        lostDried + other.lostDried,
        waterMl + other.waterMl,
        runoffMl + other.runoffMl,
        nMg + other.nMg,
        heldNMg + other.heldNMg,
        unfedNMg + other.unfedNMg,
        labelNMg + other.labelNMg,
        living + otherLiving == 0 ? 0 : ecSum / (living + otherLiving),
        Math.max(highestEcMsPerCm, other.highestEcMsPerCm),
        passes + other.passes,
        violations + other.violations,
        fedTooEarly + other.fedTooEarly,
        toughened + other.toughened,
        leafCm2 + other.leafCm2,
        both);
  }

  /** Cups lost for either cause. */
  @JsonProperty("lost")
  public int lost() {
    return lostRotted + lostDried;
  }

  /** Part of the living hours spent between wet line and dry line. */
  @JsonProperty("in_band")
  public double inBand() {
    return cupHours == 0 ? 0 : rounded(1 - (wetHours + dryHours) / cupHours);
  }

  /** Part of what was given that ran off. */
  @JsonProperty("leaching_fraction")
  public double leachingFraction() {
    return waterMl == 0 ? 0 : rounded(runoffMl / waterMl);
  }

  /** Hours past the wet line for each cup and week. */
  @JsonProperty("wet_hours_per_cup_week")
  public double wetHoursPerCupWeek() {
    return cupHours == 0 ? 0 : rounded(wetHours / (cupHours / 168));
  }

  /** The same in four decimals, as it is shown. */
  Figures rounded() {
    return new Figures(
        rounded(cupHours),
        rounded(wetHours),
        rounded(dryHours),
        cups,
        lostRotted,
        lostDried,
        rounded(waterMl),
        rounded(runoffMl),
        rounded(nMg),
        rounded(heldNMg),
        rounded(unfedNMg),
        rounded(labelNMg),
        rounded(ecMsPerCm),
        rounded(highestEcMsPerCm),
        passes,
        violations,
        fedTooEarly,
        toughened,
        rounded(leafCm2),
        alerts);
  }

  private static double rounded(double value) {
    return Math.rint(value * 10_000) / 10_000;
  }
}
