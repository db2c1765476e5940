package dev.cupwarden.core.dosing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What stands in the part of the plumbing that all cups share: pump head, riser and manifold. It
 * flows in layers, the fastest twice as fast as the mean, and the layers do not mix. Of what
 * entered while the pump moved a small dx, the part 1 - F is still inside when u mL have followed
 * it, with
 *
 * <pre>
 *   F = 0                 for u &lt;= V / 2
 *   F = 1 - V² / (4 u²)   beyond
 * </pre>
 *
 * (laminar flow in a pipe without diffusion: Levenspiel, Chemical Reaction Engineering, 3rd ed.,
 * 1999, p. 344). So, after t hose volumes, 1 / (4 t) of the old content is still there: a quarter
 * after one, an eighth after two. Diffusion would only empty it sooner.
 *
 * @param volumeMl V; 0 where nothing is shared
 * @param slugs what went in, newest first; the oldest is taken to have gone in for ever
 */
public record Hose(double volumeMl, List<Slug> slugs) {
  /** Older ones are taken together: less than a hundredth of the content is in them by then. */
  private static final int MOST_SLUGS = 16;

  /** Less of a kind than this part of the hose is not worth a doubt: our choice. */
  private static final double COUNTS_PART = 0.01;

  /** No hose at all: what the pump moves is at once where it belongs. */
  public static final Hose NONE = new Hose(0.0, List.of());

  /**
   * Water of one kind that went in at one go.
   *
   * @param ml how much went in, some of which may have left again; infinite for the oldest
   * @param strength label strength; 0 for plain water
   * @param feed whose label; null for plain water
   */
  public record Slug(double ml, double strength, String feed) {
    /** Plain water. */
    public static Slug plain(double ml) {
      return new Slug(ml, 0.0, null);
    }

    private boolean like(Slug other) {
      return strength == other.strength && Objects.equals(feed, other.feed);
    }
  }

  /**
   * What a pass does.
   *
   * @param after the hose when it is over
   * @param ml what left the drip end: as much as went in
   * @param labelMl label-equivalents that left, in mL at label strength
   * @param feed whose label most of them are; null where none left
   */
  public record Flow(Hose after, double ml, double labelMl, String feed) {
    /** Mean label strength of what left. */
    public double strength() {
      return ml > 0.0 ? labelMl / ml : 0.0;
    }
  }

  /** Full of one kind. */
  public static Hose full(double volumeMl, double strength, String feed) {
    return volumeMl <= 0.0
        ? NONE
        : new Hose(
            volumeMl,
            List.of(
                strength > 0.0
                    ? new Slug(Double.POSITIVE_INFINITY, strength, feed)
                    : Slug.plain(Double.POSITIVE_INFINITY)));
  }

  /** What went in is the same, the plumbing another. */
  public Hose ofVolume(double otherMl) {
    return otherMl == volumeMl ? this : new Hose(otherMl, slugs);
  }

  /** Whether any feed stands in it. */
  public boolean holdsFeed() {
    return strongest().strength() > 0.0;
  }

  /** The strongest of what a hundredth of it or more is full of. */
  public Slug strongest() {
    Slug most = Slug.plain(0.0);
    double age = 0.0;
    for (Slug slug : slugs) {
      double leftMl = within(age + slug.ml()) - within(age);
      boolean counts = leftMl >= COUNTS_PART * volumeMl;
      most = counts && slug.strength() > most.strength() ? slug : most;
      age += slug.ml();
    }
    return most;
  }

  /** Label-equivalents in it, in mL at label strength. */
  public double labelMl() {
    return byFeed().values().stream().mapToDouble(Double::doubleValue).sum();
  }

  private SortedMap<String, Double> byFeed() {
    SortedMap<String, Double> sums = new TreeMap<>();
    double age = 0.0;
    for (Slug slug : slugs) {
      if (slug.strength() > 0.0) {
        double leftMl = within(age + slug.ml()) - within(age);
        sums.merge(slug.feed(), leftMl * slug.strength(), Double::sum);
      }
      age += slug.ml();
    }
    return sums;
  }

  /** How much of the last so many mL that went in is still inside, mL: the integral of 1 - F. */
  private double within(double ml) {
    if (ml <= volumeMl / 2.0) {
      return ml;
    }
    return volumeMl * (1.0 - volumeMl / (4.0 * ml));
  }

  /** After that went in, in this order. */
  public Flow push(Slug... in) {
    Hose after = this;
    SortedMap<String, Double> left = byFeed();
    double ml = 0.0;
    for (Slug slug : in) {
      if (slug.ml() > 0.0) {
        ml += slug.ml();
        after = after.with(slug);
        if (slug.strength() > 0.0) {
          left.merge(slug.feed(), slug.ml() * slug.strength(), Double::sum);
        }
      }
    }
    after.byFeed().forEach((feed, labelMl) -> left.merge(feed, -labelMl, Double::sum));
    double labelMl = 0.0;
    String most = null;
    for (String feed : left.keySet()) {
      double one = Math.max(0.0, left.get(feed));
      most = one > 0.0 && (most == null || one > left.get(most)) ? feed : most;
      labelMl += one;
    }
    return new Flow(after, ml, labelMl, most);
  }

  private Hose with(Slug slug) {
    if (volumeMl <= 0.0) {
      return this;
    }
    List<Slug> next = new ArrayList<>(slugs.size() + 1);
    next.add(slug);
    next.addAll(slugs);
    if (slug.like(slugs.get(0))) {
      next.subList(0, 2).clear();
      next.add(0, new Slug(slug.ml() + slugs.get(0).ml(), slug.strength(), slug.feed()));
    }
    Hose longer = new Hose(volumeMl, Collections.unmodifiableList(next));
    return next.size() > MOST_SLUGS ? longer.folded() : longer;
  }

  /** The two oldest as one that holds what both hold. */
  private Hose folded() {
    int last = slugs.size() - 1;
    double age = 0.0;
    for (Slug slug : slugs.subList(0, last - 1)) {
      age += slug.ml();
    }
    Slug young = slugs.get(last - 1);
    Slug old = slugs.get(last);
    double youngMl = within(age + young.ml()) - within(age);
    double oldMl = volumeMl - within(age + young.ml());
    double youngLabelMl = youngMl * young.strength();
    double oldLabelMl = oldMl * old.strength();
    double strength = (youngLabelMl + oldLabelMl) / (youngMl + oldMl);
    String feed = youngLabelMl > oldLabelMl ? young.feed() : old.feed();
    List<Slug> next = new ArrayList<>(slugs.subList(0, last - 1));
    next.add(new Slug(Double.POSITIVE_INFINITY, strength, strength > 0.0 ? feed : null));
    return new Hose(volumeMl, List.copyOf(next));
  }
}
