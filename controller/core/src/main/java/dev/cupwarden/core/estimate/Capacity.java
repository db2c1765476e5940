package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * What a cup weighs at container capacity, and who taught it.
 *
 * <p>The first weight that was learned replaces the predicted one: the mix holds more or less than
 * its curve says. Later ones follow the plant as far as a cutting can grow in the time between;
 * what they differ by beyond that is water again. Growth lifts dry and saturated weights as well;
 * water held does not, and moves the available water by the same grams: vessel, dry mix and cutting
 * are better known than the curve, so the dry line stays at its weight. A weighing replaces what
 * was believed; a plateau found unasked is averaged in by its precision.
 *
 * @param massG gross grams at capacity; 0: none learned
 * @param firstG the same without what the plant gained since it was first learned, g
 * @param varG2 variance of {@code massG}, g²
 * @param at when last learned; null: never
 * @param by who taught it; null in journals from before that was kept
 * @param doubtedAt since when only a weighing may change it; null: it is believed
 */
public record Capacity(
    double massG, double firstG, double varG2, Instant at, Teacher by, Instant doubtedAt) {
  static final Capacity PREDICTED = new Capacity(0, 0, 0, null, Teacher.PREDICTION, null);

  /** Weighed after soaking and draining, dripping aside. */
  private static final double WEIGHED_SD_G = 1;

  /** A plateau found: drainage has a tail and the surface holds some water. */
  private static final double FOUND_SD_G = 3;

  /** Growth and settling of the mix between plateaus, g² per day (guess: 0.7 g in a day). */
  private static final double GROWTH_VAR_PER_DAY = 0.5;

  /** No cutting gains or sheds more, g a day: one of 15 g would double in a month (our choice). */
  private static final double MOST_GROWTH_G_PER_DAY = 0.5;

  /** A month without a plateau: time to ask for a drained weighing (project choice). */
  public static final double OLD_DAYS = 28;

  /** A mix that keeps less than this part of the water foretold is not that mix (our choice). */
  private static final double LEAST_PART = 0.3;

  /**
   * Filling, packing and the curve spread a cup's water at capacity by such a part (our choice).
   */
  private static final double PREDICTED_SD_PART = 0.05;

  /** Likewise the weight of vessel and dry mix (our choice: both are entered once for many). */
  private static final double DRY_SD_PART = 0.05;

  /** Likewise the water that a cutting cannot take, of which least is known (our choice). */
  private static final double UNAVAILABLE_SD_PART = 0.1;

  /**
   * By such a part of the available water a soak or a watering leaves its mix short of full, or
   * above it: what is weighed well need not be capacity (our choice).
   */
  private static final double SOAKED_SD_PART = 0.05;

  private static final double FAR_FROM_WEIGHED = 0.1;
  private static final double FAR_FROM_PLATEAU = 0.2;
  private static final double FAR_FROM_PREDICTED = 0.25;

  /** Who taught it, the least trusted first. */
  public enum Teacher {
    /** Vessel, mix and cutting of the bench file. */
    PREDICTION("prediction"),
    /** A plateau that showed by itself, or water that ran through. */
    PLATEAU("plateau"),
    /** A person, who soaked it, let it drain and had it weighed. */
    WEIGHING("weighing");

    private final String word;

    Teacher(String word) {
      this.word = word;
    }

    /** The name used in messages. */
    public String word() {
      return word;
    }
  }

  public Capacity {
    if (by == null) {
      by = at == null ? Teacher.PREDICTION : Teacher.PLATEAU;
    }
  }

  /** Whether it was ever learned from the cup itself. */
  public boolean learned() {
    return at != null;
  }

  /** Whether a weight at rest has spoken against it. */
  public boolean doubted() {
    return doubtedAt != null;
  }

  /** Days since it was last learned; infinite where it never was. */
  public double ageDays(Instant now) {
    return learned() ? Elapsed.hours(at, now) / 24 : Double.POSITIVE_INFINITY;
  }

  /** Whether it is so long since a plateau that a drained weighing should be asked for. */
  public boolean old(Instant now) {
    return ageDays(now) > OLD_DAYS;
  }

  /** After a person had it weighed, soaked and drained: the one thing that ends a doubt. */
  public Capacity weighed(Instant now, double drainedG) {
    return taught(now, drainedG, WEIGHED_SD_G * WEIGHED_SD_G, Teacher.WEIGHING);
  }

  /** After a plateau showed by itself; what is in doubt stays so. */
  public Capacity found(Instant now, double plateauG) {
    double seenVar = FOUND_SD_G * FOUND_SD_G;
    if (doubted()) {
      return this;
    }
    if (!learned()) {
      return taught(now, plateauG, seenVar, Teacher.PLATEAU);
    }
    double var = varG2 + GROWTH_VAR_PER_DAY * Elapsed.hours(at, now) / 24;
    double gain = var / (var + seenVar);
    return taught(now, massG + gain * (plateauG - massG), var * (1 - gain), by);
  }

  /** After water ran through it: here it is full. A weighing is not undone by that. */
  public Capacity ranThrough(Instant now, double fullG) {
    return doubted() || by == Teacher.WEIGHING
        ? this
        : taught(now, fullG, FOUND_SD_G * FOUND_SD_G, Teacher.PLATEAU);
  }

  private Capacity taught(Instant now, double newG, double newVarG2, Teacher teacher) {
    if (!learned()) {
      return new Capacity(newG, newG, newVarG2, now, teacher, null);
    }
    double most = MOST_GROWTH_G_PER_DAY * Math.max(0, Elapsed.hours(at, now)) / 24;
    double grownG = Math.max(-most, Math.min(most, newG - massG));
    double growthG = Math.max(0, growthG() + grownG);
    return new Capacity(newG, newG - growthG, newVarG2, now, teacher, null);
  }

  /** The same, in doubt from then on. */
  public Capacity doubted(Instant since) {
    return new Capacity(massG, firstG, varG2, at, by, since);
  }

  /** What the plant gained since the first plateau, g, 0 or more. */
  public double growthG() {
    return Math.max(0, massG - firstG);
  }

  /**
   * How far a drained weight may be from what was believed without being asked about, g: a tenth of
   * the available water from a weight that a weighing taught, a fifth from a plateau's, and from a
   * predicted one a quarter, or two standard deviations of the prediction where that is more.
   *
   * <p>Where it is lighter, a tenth and two standard deviations: a basin too shallow, a soak too
   * short or a day on the sill make a cup light, and with a capacity too low it would dry further
   * than anybody is told; what has drained is seldom too heavy.
   */
  public double farG(WeightFrame predicted, double foundG) {
    WeightFrame believed = over(predicted);
    double availableMl = believed.availableMl();
    double predictedG = 2 * PREDICTED_SD_PART * predicted.capacityMl();
    boolean lighter = foundG < believed.capacityG();
    return switch (by) {
      case WEIGHING -> FAR_FROM_WEIGHED * availableMl;
      case PLATEAU -> (lighter ? FAR_FROM_WEIGHED : FAR_FROM_PLATEAU) * availableMl;
      case PREDICTION ->
          lighter ? predictedG : Math.max(FAR_FROM_PREDICTED * availableMl, predictedG);
    };
  }

  /**
   * Standard deviation of a depletion that is reckoned from it. With capacity C, the end E of what
   * the cutting can take and the weight m, D = (C - m) / (C - E), so dD = ((1 - D) dC + D dE - dm)
   * / (C - E). Of a cup of which no capacity was learned, both C and E err with vessel and dry mix.
   *
   * @param since when the cup was first seen: it has grown since, unless it was learned later
   */
  public double depletionSd(
      WeightFrame predicted, double massG, double massSdG, Instant since, Instant now) {
    WeightFrame known = over(predicted);
    double depletion = known.depletion(massG);
    double unavailableG = predicted.capacityMl() - predicted.availableMl();
    double dryG = DRY_SD_PART * predicted.dryG();
    double endG = UNAVAILABLE_SD_PART * unavailableG;
    Instant from = learned() ? at : since;
    double days = from == null ? 0 : Math.max(0, Elapsed.hours(from, now)) / 24;
    double grownVarG2 = GROWTH_VAR_PER_DAY * days;
    double wet = 1 - depletion;
    double heldVarG2;
    if (learned()) {
      double sdG = (doubted() ? FAR_FROM_WEIGHED : SOAKED_SD_PART) * known.availableMl();
      heldVarG2 =
          wet * wet * (varG2 + sdG * sdG + grownVarG2)
              + depletion * depletion * (dryG * dryG + endG * endG);
    } else {
      double capacityG = PREDICTED_SD_PART * predicted.capacityMl();
      heldVarG2 =
          wet * wet * capacityG * capacityG
              + depletion * depletion * endG * endG
              + dryG * dryG
              + grownVarG2;
    }
    return Math.sqrt(heldVarG2 + massSdG * massSdG) / known.availableMl();
  }

  /** The least that a cup can weigh at capacity, whoever says so, g. */
  public double leastG(WeightFrame predicted) {
    return predicted.capacityG() - (1 - LEAST_PART) * predicted.availableMl() + growthG();
  }

  /**
   * The predicted weights of a cup with what was learned put over them. No line lies below vessel,
   * dry mix and cutting: what a cutting cannot take of the water stays below depletion 1.
   */
  public WeightFrame over(WeightFrame predicted) {
    if (!learned()) {
      return predicted;
    }
    double capacityG = Math.max(massG, leastG(predicted));
    double heldG = capacityG - growthG() - predicted.capacityG();
    return new WeightFrame(
        predicted.dryG() + growthG(),
        capacityG,
        Math.max(predicted.saturatedG() + growthG(), capacityG),
        predicted.availableMl() + heldG);
  }
}
