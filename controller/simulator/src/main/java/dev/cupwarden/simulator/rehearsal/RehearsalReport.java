package dev.cupwarden.simulator.rehearsal;

import java.util.List;

/**
 * Rehearsals of several policies over several seeds, as they are told; the same seeds give the same
 * report to the byte. How long it took is no part of it.
 *
 * @param faults how much went wrong
 * @param policies in the order asked for
 */
public record RehearsalReport(int cups, int days, String faults, List<OfPolicy> policies) {

  /**
   * One policy in one world.
   *
   * @param world the world it ran in
   * @param total all seeds together, as one large bench
   */
  public record OfPolicy(String world, String policy, Figures total, List<OfSeed> seeds) {
    static OfPolicy of(World world, PolicyKind kind, List<OfSeed> seeds) {
      Figures total = seeds.get(0).figures();
      for (OfSeed each : seeds.subList(1, seeds.size())) {
        total = total.plus(each.figures());
      }
      return new OfPolicy(
          world.word(), kind.word(), total.rounded(), seeds.stream().map(OfSeed::rounded).toList());
    }
  }

  /** One seed of one policy. */
  public record OfSeed(long seed, Figures figures) {
    OfSeed rounded() {
      return new OfSeed(seed, figures.rounded());
    }
  }

  /** Of figures in order of seed, one list for each policy, in the first world. */
  public static OfPolicy policy(PolicyKind kind, List<OfSeed> seeds) {
    return policy(World.FIRST, kind, seeds);
  }

  /** Of figures in order of seed, one list for each policy and world. */
  public static OfPolicy policy(World world, PolicyKind kind, List<OfSeed> seeds) {
    return OfPolicy.of(world, kind, seeds);
  }
}
