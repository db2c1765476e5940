package dev.cupwarden.simulator.second;

import dev.cupwarden.simulator.world.Air;

/**
 * Air that moves.
 *
 * @param windMPerS speed of the air at the leaves; some 0.1 in a still room
 */
record Breeze(double airC, double rhPct, double rootC, double lightUmolPerM2S, double windMPerS)
    implements Air {
  /** What a still room's air does by itself. */
  static final double STILL_M_PER_S = 0.1;

  /** Any air; of a world without a fan it is still. */
  static Breeze of(Air air) {
    return air instanceof Breeze own
        ? own
        : new Breeze(air.airC(), air.rhPct(), air.rootC(), air.lightUmolPerM2S(), STILL_M_PER_S);
  }

  /** The same under a dome: nearly full of vapour, a little warmer, still. */
  Breeze underDome() {
    double damp = 100 - (100 - rhPct) * 0.15;
    return new Breeze(airC + 0.5, damp, rootC, lightUmolPerM2S * 0.88, 0.5 * STILL_M_PER_S);
  }
}
