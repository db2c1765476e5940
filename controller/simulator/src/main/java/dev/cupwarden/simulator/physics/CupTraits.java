package dev.cupwarden.simulator.physics;

/**
 * What is really so of one cup and its cutting; {@link TraitTable} draws it.
 *
 * @param mix vessel and mix, as they were filled
 * @param plant the cutting in it
 */
record CupTraits(FilledMix mix, PlantTraits plant) {
  /**
   * A vessel and the mix in it.
   *
   * @param cone as it was really filled
   * @param retention as it was really packed
   * @param unavailable volume fraction the cutting cannot take
   * @param leastAir volume fraction of air at which half of the greatest rot pressure acts
   * @param dryG vessel and dry mix
   * @param drainH time constant of drainage above capacity, h
   * @param infiltrationMlPerH how fast a pass sinks in
   * @param greatestBypass part of a flood that runs through when the mix is bone dry
   * @param evaporationMmPerHPerKpa from a wet surface
   */
  record FilledMix(
      MixColumn.Cone cone,
      MixColumn.Retention retention,
      double unavailable,
      double leastAir,
      double dryG,
      double drainH,
      double infiltrationMlPerH,
      double greatestBypass,
      double evaporationMmPerHPerKpa) {}

  /**
   * How a cutting grows, drinks and dies.
   *
   * @param cuttingG the cutting when struck
   * @param transpirationMlPerHPerCm2PerKpa of a lit leaf with water enough
   * @param criticalFtsw fraction of transpirable water below which leaves close
   * @param greatestLeafCm2 leaf area of the grown plant
   * @param leafGrowthPerD relative growth of leaf area at best
   * @param budBreakD days from the start to the first leaves
   * @param roots how fast its roots come
   * @param rotH hours without air that kill at 20 °C
   * @param wiltDepletion depletion beyond which fine roots die
   * @param wiltH hours beyond it that kill
   */
  record PlantTraits(
      double cuttingG,
      double transpirationMlPerHPerCm2PerKpa,
      double criticalFtsw,
      double greatestLeafCm2,
      double leafGrowthPerD,
      double budBreakD,
      RootDays roots,
      double rotH,
      double wiltDepletion,
      double wiltH) {}

  /**
   * Days at best from one root stage to the next.
   *
   * @param whiteD from struck to white roots
   * @param toughenedD from there to toughened
   * @param circlingD from there to circling
   */
  record RootDays(double whiteD, double toughenedD, double circlingD) {}
}
