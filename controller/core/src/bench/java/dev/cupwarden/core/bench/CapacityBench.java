package dev.cupwarden.core.bench;

import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.core.substrate.CupWater;
import dev.cupwarden.core.substrate.TaperedCup;
import dev.cupwarden.core.substrate.VanGenuchten;
import org.hipparchus.analysis.integration.IterativeLegendreGaussIntegrator;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;

/** What a cup holds, beside the library's adaptive quadrature of the same integral. */
@State(Scope.Benchmark)
public class CapacityBench {
  private final Vessel vessel = new Vessel("tall", 92, 60, 112, 13);
  private final Mix mix = new Mix("coir-perlite", 0.82, 0.12, 0.22, 1.55, 0.10, 0.10, 0.10);
  private final Mix square = new Mix("square", 0.82, 0.12, 0.22, 2, 0.10, 0.10, 0.10);

  /** By quadrature, as most mixes need. */
  @Benchmark
  public CupWater cup() {
    return CupWater.of(vessel, mix, 14);
  }

  /** By the closed form. */
  @Benchmark
  public CupWater cupOfClosedForm() {
    return CupWater.of(vessel, square, 14);
  }

  /** The library's own, to the accuracy that a gram needs. */
  @Benchmark
  public double plainQuadrature() {
    TaperedCup cup = TaperedCup.of(vessel);
    VanGenuchten curve = VanGenuchten.of(mix);
    return new IterativeLegendreGaussIntegrator(5, 1e-6, 1e-6)
        .integrate(
            100_000,
            z -> Math.PI * cup.radiusCm(z) * cup.radiusCm(z) * curve.theta(z),
            0,
            cup.depthCm());
  }
}
