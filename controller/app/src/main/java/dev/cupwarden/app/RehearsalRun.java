package dev.cupwarden.app;

import dev.cupwarden.simulator.rehearsal.PolicyKind;
import dev.cupwarden.simulator.rehearsal.Rehearsal;
import dev.cupwarden.simulator.rehearsal.Report;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;

/**
 * Runs every seed of every policy, one seed to a thread, as many at a time as there are cores, and
 * puts the outcomes in order.
 */
final class RehearsalRun {
  private final Rehearsal rehearsal;
  private final List<PolicyKind> kinds;
  private final long firstSeed;
  private final int seeds;
  private final List<List<Rehearsal.Outcome>> outcomes = new ArrayList<>();
  private double tookS;

  /** A seed under which a policy broke limits, with the first of them in words. */
  record Broken(long seed, String first) {}

  RehearsalRun(Rehearsal rehearsal, List<PolicyKind> kinds, long firstSeed, int seeds) {
    this.rehearsal = rehearsal;
    this.kinds = kinds;
    this.firstSeed = firstSeed;
    this.seeds = seeds;
  }

  Report go() throws ExecutionException, InterruptedException {
    long began = System.nanoTime();
    int cores = Runtime.getRuntime().availableProcessors();
    ExecutorService threads = Executors.newFixedThreadPool(cores);
    long daysInAll = (long) kinds.size() * seeds * rehearsal.days();
    try (ProgressBar bar = onTerminal() ? bar(daysInAll) : null) {
      List<List<Future<Rehearsal.Outcome>>> running = new ArrayList<>();
      for (PolicyKind kind : kinds) {
        List<Future<Rehearsal.Outcome>> ofKind = new ArrayList<>();
        for (int i = 0; i < seeds; i++) {
          long seed = firstSeed + i;
          ofKind.add(threads.submit(() -> rehearsal.run(kind, seed, day -> step(bar))));
        }
        running.add(ofKind);
      }
      for (List<Future<Rehearsal.Outcome>> ofKind : running) {
        List<Rehearsal.Outcome> done = new ArrayList<>();
        for (Future<Rehearsal.Outcome> each : ofKind) {
          done.add(each.get());
        }
        outcomes.add(done);
      }
    } finally {
      threads.shutdownNow();
    }
    tookS = (System.nanoTime() - began) / 1e9;
    return report();
  }

  private Report report() {
    List<Report.OfPolicy> policies = new ArrayList<>();
    for (int k = 0; k < kinds.size(); k++) {
      List<Report.OfSeed> ofSeeds = new ArrayList<>();
      for (int i = 0; i < seeds; i++) {
        ofSeeds.add(new Report.OfSeed(firstSeed + i, outcomes.get(k).get(i).figures()));
      }
      policies.add(Report.policy(kinds.get(k), ofSeeds));
    }
    return new Report(
        rehearsal.bench().cups().size(),
        rehearsal.days(),
        rehearsal.faults().name().toLowerCase(Locale.ROOT),
        policies);
  }

  /** The seeds under which that policy broke a limit. */
  List<Broken> brokenBy(PolicyKind kind) {
    List<Broken> found = new ArrayList<>();
    int k = kinds.indexOf(kind);
    for (int i = 0; k >= 0 && i < seeds; i++) {
      List<String> broken = outcomes.get(k).get(i).broken();
      if (!broken.isEmpty()) {
        found.add(new Broken(firstSeed + i, broken.get(0)));
      }
    }
    return found;
  }

  double cupDaysPerS() {
    return (double) kinds.size()
        * seeds
        * rehearsal.days()
        * rehearsal.bench().cups().size()
        / tookS;
  }

  private static boolean onTerminal() {
    return System.console() != null;
  }

  private static ProgressBar bar(long days) {
    return new ProgressBarBuilder().setTaskName("rehearse").setInitialMax(days).build();
  }

  private static void step(ProgressBar bar) {
    if (bar != null) {
      bar.step();
    }
  }
}
