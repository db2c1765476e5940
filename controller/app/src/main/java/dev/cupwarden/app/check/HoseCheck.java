package dev.cupwarden.app.check;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.tick.FeedReach;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Whether feed reaches the cups that it is meant for, through the hose that all share; that a bench
 * which feeds names one is {@link dev.cupwarden.core.setup.BenchSafety}'s.
 */
final class HoseCheck {
  private final Bench bench;

  HoseCheck(Bench bench) {
    this.bench = bench;
  }

  List<Finding> all() {
    if (!bench.hasFeedTank() || !bench.hose().told()) {
      return List.of();
    }
    List<Finding> findings = new ArrayList<>();
    findings.add(
        Finding.ok(
            "hose",
            String.format(
                Locale.ROOT,
                "%.1f mL shared by all cups%s",
                bench.hose().volumeMl(),
                bench.hose().drain().map(valve -> ", cleared through " + valve).orElse(""))));
    for (FeedReach reach : FeedReach.of(bench)) {
      findings.add(finding(reach));
    }
    return findings;
  }

  private static Finding finding(FeedReach reach) {
    String sentence =
        String.format(
            Locale.ROOT,
            "Cup %s: %.2f of the label is meant; a refill of %.0f mL can reach %.2f",
            reach.cup(),
            reach.meant(),
            reach.refillMl(),
            reach.reached());
    return reach.enough()
        ? Finding.ok("hose", sentence)
        : Finding.note(
            "hose",
            sentence + ": mix the tank stronger, shorten the hose, or add a waste valve (drain).");
  }
}
