package dev.cupwarden.app;

import dev.cupwarden.simulator.rehearsal.PolicyKind;
import dev.cupwarden.simulator.rehearsal.Rehearsal;
import dev.cupwarden.simulator.rehearsal.RehearsalReport;
import dev.cupwarden.simulator.rehearsal.World;
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
 * Runs every seed of every policy in every world asked for, one seed to a thread, as many at a time
 * as there are cores, and puts the outcomes in order.
 */
final class RehearsalRun {
  private final Rehearsal rehearsal;
  private final List<World> worlds;
  private final List<PolicyKind> kinds;
  private final long firstSeed;
  private final int seeds;
  private final List<Column> columns = new ArrayList<>();
  private double tookS;

  /** A seed under which a policy broke limits, with the first of them in words. */
  record Broken(World world, long seed, String first) {}

  /** What one policy came to in one world, by seed. */
  private record Column(World world, PolicyKind kind, List<Rehearsal.Outcome> outcomes) {}

  RehearsalRun(
      Rehearsal rehearsal, List<World> worlds, List<PolicyKind> kinds, long firstSeed, int seeds) {
    this.rehearsal = rehearsal;
    this.worlds = worlds;
    this.kinds = kinds;
    this.firstSeed = firstSeed;
    this.seeds = seeds;
  }

  RehearsalReport go() throws ExecutionException, InterruptedException {
    long began = System.nanoTime();
    int cores = Runtime.getRuntime().availableProcessors();
    ExecutorService threads = Executors.newFixedThreadPool(cores);
    long daysInAll = (long) worlds.size() * kinds.size() * seeds * rehearsal.days();
    try (ProgressBar bar = onTerminal() ? bar(daysInAll) : null) {
      List<List<Future<Rehearsal.Outcome>>> running = new ArrayList<>();
      for (World world : worlds) {
        for (PolicyKind kind : kinds) {
          running.add(submit(threads, rehearsal.in(world), kind, bar));
        }
      }
      int column = 0;
      for (World world : worlds) {
        for (PolicyKind kind : kinds) {
          columns.add(new Column(world, kind, done(running.get(column++))));
        }
      }
    } finally {
      threads.shutdownNow();
    }
    tookS = (System.nanoTime() - began) / 1e9;
    return report();
  }

  private List<Future<Rehearsal.Outcome>> submit(
      ExecutorService threads, Rehearsal winter, PolicyKind kind, ProgressBar bar) {
    List<Future<Rehearsal.Outcome>> running = new ArrayList<>();
    for (int i = 0; i < seeds; i++) {
      long seed = firstSeed + i;
      running.add(threads.submit(() -> winter.run(kind, seed, day -> step(bar))));
    }
    return running;
  }

  private static List<Rehearsal.Outcome> done(List<Future<Rehearsal.Outcome>> running)
      throws ExecutionException, InterruptedException {
    List<Rehearsal.Outcome> done = new ArrayList<>();
    for (Future<Rehearsal.Outcome> each : running) {
      done.add(each.get());
    }
    return done;
  }

  private RehearsalReport report() {
    List<RehearsalReport.OfPolicy> policies = new ArrayList<>();
    for (Column column : columns) {
      List<RehearsalReport.OfSeed> ofSeeds = new ArrayList<>();
      for (int i = 0; i < seeds; i++) {
        ofSeeds.add(new RehearsalReport.OfSeed(firstSeed + i, column.outcomes.get(i).figures()));
      }
      policies.add(RehearsalReport.policy(column.world, column.kind, ofSeeds));
    }
    return new RehearsalReport(
        rehearsal.bench().cups().size(),
        rehearsal.days(),
        rehearsal.faults().name().toLowerCase(Locale.ROOT),
        policies);
  }

  /** The seeds under which that policy broke a limit. */
  List<Broken> brokenBy(PolicyKind kind) {
    List<Broken> found = new ArrayList<>();
    for (Column column : columns) {
      for (int i = 0; column.kind == kind && i < seeds; i++) {
        List<String> broken = column.outcomes.get(i).broken();
        if (!broken.isEmpty()) {
          found.add(new Broken(column.world, firstSeed + i, broken.get(0)));
        }
      }
    }
    return found;
  }

  double cupDaysPerS() {
    return (double) worlds.size()
        * kinds.size()
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
