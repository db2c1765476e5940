package dev.cupwarden.simulator.world;

/** The air about the cups at one moment. */
public interface Air {
  /** Air temperature, °C. */
  double airC();

  /** Relative humidity, percent. */
  double rhPct();

  /** Temperature of the mix, °C. */
  double rootC();

  /** Photon flux at the leaves, µmol m⁻² s⁻¹. */
  double lightUmolPerM2S();
}
