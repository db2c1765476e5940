package dev.cupwarden.core.setup;

import java.time.LocalDate;
import java.util.Collections;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * One cutting in its vessel, as the grower entered it.
 *
 * @param name how the bench calls it
 * @param vessel name of its vessel
 * @param mix name of its mix
 * @param plant what was struck
 * @param struck when
 * @param stage what was last seen of its roots
 * @param cuttingG mass of the cutting when struck
 * @param lines its own lines in place of its stage's
 * @param covered whether it stands under a dome or in a bag from the start
 * @param wiring where it hangs on the board; none for benches of {@code advise}
 */
public record Cup(
    String name,
    String vessel,
    String mix,
    String plant,
    Optional<LocalDate> struck,
    RootStage stage,
    double cuttingG,
    Optional<StageLines> lines,
    boolean covered,
    Wiring wiring) {

  /** One that stands open. */
  public Cup(
      String name,
      String vessel,
      String mix,
      String plant,
      Optional<LocalDate> struck,
      RootStage stage,
      double cuttingG,
      Optional<StageLines> lines,
      Wiring wiring) {
    this(name, vessel, mix, plant, struck, stage, cuttingG, lines, false, wiring);
  }

  /** The names under which the board knows the cup's parts. */
  public record Wiring(Optional<String> scale, Optional<String> valve, Optional<String> probe) {
    public static final Wiring NONE =
        new Wiring(Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** Where each of these cups hangs on the board, by name. */
  public static SortedMap<String, Wiring> wirings(Stream<Cup> cups) {
    SortedMap<String, Wiring> wirings = new TreeMap<>();
    cups.forEach(cup -> wirings.put(cup.name(), cup.wiring()));
    return Collections.unmodifiableSortedMap(wirings);
  }

  /** The same, without the parts of the board that another has. */
  public Cup without(Wiring taken) {
    return new Cup(
        name,
        vessel,
        mix,
        plant,
        struck,
        stage,
        cuttingG,
        lines,
        covered,
        new Wiring(
            wiring.scale().filter(part -> !taken.scale().equals(Optional.of(part))),
            wiring.valve().filter(part -> !taken.valve().equals(Optional.of(part))),
            wiring.probe().filter(part -> !taken.probe().equals(Optional.of(part)))));
  }

  public Cup withStage(RootStage seen) {
    return new Cup(name, vessel, mix, plant, struck, seen, cuttingG, lines, covered, wiring);
  }

  /**
   * This, as the bench file says it now, of a cup that orders may have changed: what the file says
   * anew wins, what it says as before undoes no order.
   *
   * @param was as the file said before
   * @param kept as it is kept since
   */
  public Cup over(Cup was, Cup kept) {
    Cup edited = stage == was.stage ? withStage(kept.stage) : this;
    return vessel.equals(was.vessel) && mix.equals(was.mix)
        ? edited.withVesselAndMix(kept.vessel, kept.mix)
        : edited;
  }

  public Cup withVesselAndMix(String newVessel, String newMix) {
    return new Cup(name, newVessel, newMix, plant, struck, stage, cuttingG, lines, covered, wiring);
  }
}
