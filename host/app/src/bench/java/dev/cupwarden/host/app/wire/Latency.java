package dev.cupwarden.host.app.wire;

import java.util.List;

/** How long something took, mostly and at most. */
record Latency(double medianMs, double p95Ms, double mostMs) {
  static Latency of(List<Double> tookMs) {
    List<Double> sorted = tookMs.stream().sorted().toList();
    if (sorted.isEmpty()) {
      return new Latency(Double.NaN, Double.NaN, Double.NaN);
    }
    return new Latency(part(sorted, 0.5), part(sorted, 0.95), part(sorted, 1));
  }

  private static double part(List<Double> sorted, double part) {
    return sorted.get((int) Math.ceil(part * sorted.size()) - 1);
  }

  @Override
  public String toString() {
    return String.format("%.0f ms (median; 95 %% %.0f, all %.0f)", medianMs, p95Ms, mostMs);
  }
}
