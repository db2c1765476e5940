package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.feeding.LabelRate;
import dev.cupwarden.core.feeding.Nutrients;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.Collections;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The shared plumbing's next state while one tick works it out; it never leaves the tick. All
 * volumes are as ordered: to a pump that gives less, the hose is so much longer.
 */
final class HoseDraft {
  /**
   * A pump a twentieth slow and a hose a twentieth longer than said leave a fifth more of the old
   * water: our choice.
   */
  static final double SCATTER = 1.2;

  /** A pump that no weight has shown yet may be a twelfth slow: our choice. */
  private static final double SCATTER_UNSEEN = 1.3;

  final Bench bench;
  final Instant at;
  final SortedMap<String, Instant> waiting;
  final SortedMap<String, Double> owedMl;
  Hose content;
  HoseState.Priming priming;
  HoseState.Carried told;

  /** Whether cups that get plain water are being watered, so that those that get feed wait. */
  boolean plainFirst;

  /** Whether somebody waits for clear water for so long that no more feed goes in. */
  boolean closing;

  private final double scatter;
  private Hose.Slug strongest;
  private boolean pushed;

  /**
   * @param pumpSeen what part of an order the pump gives; NaN where no weight has shown it yet
   */
  HoseDraft(Bench bench, BenchState before, Observation seen, double pumpSeen) {
    this.bench = bench;
    this.at = seen.at();
    HoseState kept = before.hose();
    waiting = new TreeMap<>(kept.waiting());
    owedMl = new TreeMap<>(kept.owedMl());
    priming = kept.priming();
    told = kept.told();
    double volumeMl = bench.hose().volumeMl();
    boolean known = kept.content() != null && kept.content().volumeMl() == volumeMl;
    content =
        known
            ? kept.content()
            : volumeMl > 0.0 ? unknown(bench, before) : Hose.full(0.0, 0.0, null);
    strongest = known ? kept.strongest() : content.strongest();
    if (seen.hoseInDoubt() && shared()) {
      Hose.Slug now = content.strongest();
      Hose.Slug most = strongest != null && strongest.strength() > now.strength() ? strongest : now;
      content = Hose.full(content.volumeMl(), most.strength(), most.feed());
    }
    scatter = Double.isNaN(pumpSeen) ? SCATTER_UNSEEN : SCATTER;
    content = content.ofVolume(Double.isNaN(pumpSeen) ? volumeMl : volumeMl / pumpSeen);
  }

  /** A bench that nothing was put out on holds plain water; one that was fed lately, feed. */
  private static Hose unknown(Bench bench, BenchState before) {
    boolean fed =
        before.cups().values().stream()
            .anyMatch(
                cup -> cup.doses().given().stream().anyMatch(given -> given.strength() > 0.0));
    Tank strongest = null;
    for (Tank tank : bench.tanks().values()) {
      if (tank.feed().isPresent()
          && (strongest == null || tank.strength() > strongest.strength())) {
        strongest = tank;
      }
    }
    return fed && strongest != null
        ? Hose.full(bench.hose().volumeMl(), strongest.strength(), strongest.feed().get())
        : Hose.full(bench.hose().volumeMl(), 0.0, null);
  }

  /** Whether there is any plumbing that cups share. */
  boolean shared() {
    return content.volumeMl() > 0.0;
  }

  /** What is left of it after this tick. */
  HoseState state() {
    if (!shared() && waiting.isEmpty() && owedMl.isEmpty() && told == null) {
      return HoseState.NONE;
    }
    return new HoseState(
        content.ofVolume(bench.hose().volumeMl()),
        strongest,
        Collections.unmodifiableSortedMap(waiting),
        Collections.unmodifiableSortedMap(owedMl),
        priming,
        told);
  }

  /** What those volumes push out at the drip end. */
  Hose.Flow would(double plainMl, double feedMl, String feed, double feedStrength) {
    return content.push(Hose.Slug.plain(plainMl), new Hose.Slug(feedMl, feedStrength, feed));
  }

  /** Pushes a pass through, plain water before feed, as the board gives it. */
  Hose.Flow push(AllowedPass pass, String feed, double feedStrength) {
    if (!pushed) {
      strongest = content.strongest();
      pushed = true;
    }
    if (pass.feedMl() > 0.0 && feedStrength > strongest.strength()) {
      strongest = new Hose.Slug(pass.feedMl(), feedStrength, feed);
    }
    Hose.Flow flow = would(pass.plainMl(), pass.feedMl(), feed, feedStrength);
    content = flow.after();
    return flow;
  }

  /** Nitrogen in a litre of what a flow brings, mg. */
  double nMgPerL(Hose.Flow flow) {
    return nMgPerL(flow.feed(), flow.strength());
  }

  /** The same at most, to a cup that must have none. */
  double mostNMgPerL(Hose.Flow flow) {
    return scatter * nMgPerL(flow);
  }

  /** A feed without nitrogen counts by its phosphorus and potassium instead: our choice. */
  double nMgPerL(String feedName, double strength) {
    Feed feed = feedName == null ? null : bench.feeds().get(feedName);
    if (feed == null || strength <= 0.0) {
      return 0.0;
    }
    Nutrients perL = LabelRate.of(feed).elementsMg(strength, 1000.0);
    return perL.nMg() > 0.0 ? perL.nMg() : perL.pMg() + perL.kMg();
  }

  /** How long a cup has waited for the hose alone, min. */
  double waitedMin(String cup) {
    Instant since = waiting.get(cup);
    return since == null ? 0.0 : Elapsed.minutes(since, at);
  }
}
