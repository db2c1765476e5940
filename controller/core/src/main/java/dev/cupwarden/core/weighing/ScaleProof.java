package dev.cupwarden.core.weighing;

import dev.cupwarden.core.argument.Argument;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.NavigableMap;
import java.util.function.Function;

/**
 * Judges a calibrated scale against class III of OIML R 76 at the interval that the grower chose.
 * The weights' own tolerance is taken in: what passes or fails only by grace of it stays open.
 */
public final class ScaleProof {
  /** Weights must be this much better than what they prove; OIML R 76, 3.7.1 (from memory). */
  private static final double WEIGHTS_OF_LIMIT = 1.0 / 3;

  private static final Duration HALF_HOUR = Duration.ofMinutes(30);
  private static final Duration TWENTY_MINUTES = Duration.ofMinutes(20);

  /** Part of the permissible error that creep may take in 30 min; OIML R 60. */
  private static final double CREEP_OF_LIMIT = 0.7;

  /** Part of it that may fall to the last ten of them; OIML R 60. */
  private static final double LATE_CREEP_OF_LIMIT = 0.15;

  private final ScaleLine line;
  private final ClassThree limits;

  public ScaleProof(ScaleLine line, ClassThree limits) {
    this.line = line;
    this.limits = limits;
  }

  /** How one figure came out. */
  public enum Verdict {
    PASS,
    FAIL,
    /** The weights' tolerance decides: better weights are needed. */
    OPEN
  }

  /**
   * One judged figure.
   *
   * @param loadG load at which the figure is closest to, or furthest beyond, its limit
   * @param errorG how far the scale was off there, always positive
   * @param limitG how far it may be
   * @param weightsG how far the weights may be
   * @param verdict what follows
   */
  public record Finding(
      double loadG, double errorG, double limitG, double weightsG, Verdict verdict) {
    static Finding of(double loadG, double errorG, double limitG, double weightsG) {
      double off = Math.abs(errorG);
      Verdict verdict =
          off - weightsG > limitG
              ? Verdict.FAIL
              : off + weightsG > limitG || weightsG > WEIGHTS_OF_LIMIT * limitG
                  ? Verdict.OPEN
                  : Verdict.PASS;
      return new Finding(loadG, off, limitG, weightsG, verdict);
    }

    private double share() {
      return (errorG + weightsG) / limitG;
    }
  }

  /**
   * Linearity: the greatest deviation from the line, each load against its own limit.
   *
   * @param samples one or more, in any order
   * @throws IllegalArgumentException for none, or a load beyond class III
   */
  public Finding linearity(List<ScaleLine.Sample> samples) {
    return worst(
        samples,
        sample ->
            Finding.of(
                sample.load().massG(),
                line.massG(sample.counts()) - sample.load().massG(),
                limits.permissibleG(sample.load().massG()),
                sample.load().toleranceG()));
  }

  /**
   * Repeatability: the range of several weighings of one load, which may be as large as the
   * permissible error; OIML R 76, 3.6.1 (from memory). The weights cancel out.
   *
   * @param load the load, put on anew each time
   * @param counts three or more readings
   * @throws IllegalArgumentException for fewer, NaN, or a load beyond class III
   */
  public Finding repeatability(TestLoad load, List<Double> counts) {
    if (counts.size() < 3) {
      throw new IllegalArgumentException(
          "counts must be at least three readings, not " + counts.size());
    }
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (double count : counts) {
      double massG = line.massG(Argument.finite("counts", count));
      least = Math.min(least, massG);
      greatest = Math.max(greatest, massG);
    }
    return Finding.of(load.massG(), greatest - least, limits.permissibleG(load.massG()), 0);
  }

  /**
   * Creep: how far the reading wanders while a load near the greatest stays on for half an hour, at
   * most 0.7 of the permissible error, and from the 20th minute on 0.15 of it; OIML R 60, whose
   * limits are those of R 76. The weights cancel out.
   *
   * @param load 90 to 100 % of the greatest load to be weighed
   * @param counts readings by time since the load was put on; the first at most 1 min, one at 20
   *     min or before, the last at 30 min or later
   * @throws IllegalArgumentException for readings that do not span that time, or NaN
   */
  public Finding creep(TestLoad load, NavigableMap<Duration, Double> counts) {
    if (counts.isEmpty()
        || counts.firstKey().compareTo(Duration.ofMinutes(1)) > 0
        || counts.lastKey().compareTo(HALF_HOUR) < 0
        || counts.floorKey(TWENTY_MINUTES).equals(counts.firstKey())) {
      throw new IllegalArgumentException(
          "counts must have readings within 1 min, about 20 min and at 30 min, not "
              + counts.keySet());
    }
    double limitG = limits.permissibleG(load.massG());
    double startG = line.massG(counts.firstEntry().getValue());
    double twentyG = line.massG(counts.floorEntry(TWENTY_MINUTES).getValue());
    double endG = line.massG(counts.ceilingEntry(HALF_HOUR).getValue());
    double farthestG = 0;
    for (double count : counts.headMap(HALF_HOUR, true).values()) {
      double offG = line.massG(Argument.finite("counts", count)) - startG;
      farthestG = Math.abs(offG) > Math.abs(farthestG) ? offG : farthestG;
    }
    farthestG = Math.max(Math.abs(farthestG), Math.abs(endG - startG));
    Finding whole = Finding.of(load.massG(), farthestG, CREEP_OF_LIMIT * limitG, 0);
    Finding late = Finding.of(load.massG(), endG - twentyG, LATE_CREEP_OF_LIMIT * limitG, 0);
    return late.share() > whole.share() ? late : whole;
  }

  private static Finding worst(
      List<ScaleLine.Sample> samples, Function<ScaleLine.Sample, Finding> judged) {
    return samples.stream()
        .map(judged)
        .max(Comparator.comparingDouble(Finding::share))
        .orElseThrow(() -> new IllegalArgumentException("samples must be at least one, not none"));
  }
}
