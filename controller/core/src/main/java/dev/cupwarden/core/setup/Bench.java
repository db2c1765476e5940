package dev.cupwarden.core.setup;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;

/**
 * All that the grower tells the program: the bench file, read, checked and in base units. One part
 * for each block of the file.
 *
 * @param trayMl what the drip tray below the bench holds
 * @param hose what all cups share of the plumbing
 */
public record Bench(
    String name,
    Optional<Place> place,
    WateringRules watering,
    Duration tick,
    FeedingRules feeding,
    RootingRules rooting,
    ClimateRules climate,
    SortedMap<String, Mix> mixes,
    SortedMap<String, Vessel> vessels,
    SortedMap<String, Feed> feeds,
    Water water,
    SortedMap<String, Tank> tanks,
    SortedMap<String, Cup> cups,
    Optional<BoardWiring> board,
    double trayMl,
    HoseRules hose) {

  /**
   * As many as one person roots on one bench; a tick of these is what a small board was tried with.
   */
  public static final int MOST_CUPS = 200;

  /** Why there may be no more, for whoever names one more. */
  public static final String CUPS_RULE = "a bench has at most " + MOST_CUPS + " cups";

  /** What a small tray holds, where the grower says nothing: our choice. */
  public static final double USUAL_TRAY_ML = 500.0;

  /** Where each cup of the file hangs on the board. */
  public SortedMap<String, Cup.Wiring> wirings() {
    return Cup.wirings(cups.values().stream());
  }

  /** Whether the pump leads to that cup; where nothing is wired a person's hand does. */
  public boolean reaches(Cup cup) {
    return board.isEmpty() || cup.wiring().valve().isPresent();
  }

  /** A bench whose plumbing shares nothing. */
  public Bench(
      String name,
      Optional<Place> place,
      WateringRules watering,
      Duration tick,
      FeedingRules feeding,
      RootingRules rooting,
      ClimateRules climate,
      SortedMap<String, Mix> mixes,
      SortedMap<String, Vessel> vessels,
      SortedMap<String, Feed> feeds,
      double waterEcMsPerCm,
      SortedMap<String, Tank> tanks,
      SortedMap<String, Cup> cups,
      Optional<BoardWiring> board,
      double trayMl) {
    this(
        name,
        place,
        watering,
        tick,
        feeding,
        rooting,
        climate,
        mixes,
        vessels,
        feeds,
        Water.of(waterEcMsPerCm),
        tanks,
        cups,
        board,
        trayMl,
        HoseRules.NONE);
  }

  /** Conductivity of its water, mS/cm. */
  public double waterEcMsPerCm() {
    return water.ecMsPerCm();
  }

  /** Whether there is feed in any of its tanks. */
  public boolean hasFeedTank() {
    return tanks.values().stream().anyMatch(tank -> tank.feed().isPresent());
  }

  /** What the drip tray holds, mL; none where the bench file says nothing. */
  public OptionalDouble toldTrayMl() {
    return trayMl == USUAL_TRAY_ML ? OptionalDouble.empty() : OptionalDouble.of(trayMl);
  }

  /** What all tanks hold together, mL; infinite where the size of one is not known. */
  public double tanksMl() {
    return tanks.values().stream().mapToDouble(Tank::sizeMl).sum();
  }

  /** What lies below a tank's float, mL: it is not to be had, as a float that falls says empty. */
  public double belowFloatMl(String tank) {
    BoardWiring.TankGauge gauge =
        board.map(wiring -> wiring.more().gauges().get(tank)).orElse(null);
    return gauge instanceof BoardWiring.FloatSwitch contact ? contact.atMl() : 0.0;
  }

  /** The lines of a cup: its own, else those of its stage and plant on this bench. */
  public StageLines linesOf(Cup cup) {
    return rooting.linesOf(cup);
  }
}
