package dev.cupwarden.simulator.rehearsal;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * How well cups were known, of one trial or of several together: every single error is kept, so
 * that any quantile can be told.
 */
public final class EstimateScore {
  private final List<Double> massErrorsG = new ArrayList<>();
  private final List<Double> doseErrorsG = new ArrayList<>();
  private final List<Double> forecastErrors = new ArrayList<>();
  private final List<Double> dayAheadErrorsH = new ArrayList<>();
  private final List<Double> depletionErrors = new ArrayList<>();
  private final List<Double> depletionErrorsSds = new ArrayList<>();
  private final Map<Happening, int[]> told = new EnumMap<>(Happening.class);
  private int dosesWithin;
  private int forecastsInBounds;
  private int daysAheadInBounds;
  private int inventions;
  private long looks;
  private long trustedLooks;

  /** What a person does to a cup. */
  enum Happening {
    LIFT,
    HAND_WATERING,
    SWAP
  }

  /** Of nothing yet. */
  public EstimateScore() {
    for (Happening each : Happening.values()) {
      told.put(each, new int[2]);
    }
  }

  void look(boolean trusted, double massErrorG) {
    looks++;
    if (trusted) {
      trustedLooks++;
      massErrorsG.add(Math.abs(massErrorG));
    }
  }

  void happened(Happening what, boolean toldRight) {
    told.get(what)[0]++;
    told.get(what)[1] += toldRight ? 1 : 0;
  }

  /** An event told of a cup to which nothing had happened. */
  void invented(int events) {
    inventions += events;
  }

  void dose(double gainG, double seenG) {
    double errorG = Math.abs(seenG - gainG);
    doseErrorsG.add(errorG);
    dosesWithin += errorG <= 0.5 + 0.03 * gainG ? 1 : 0;
  }

  /** Of a cup in its own place whose scale is trusted. */
  void depletion(double error, double sd) {
    depletionErrors.add(Math.abs(error));
    depletionErrorsSds.add(Math.abs(error) / sd);
  }

  /** When it reaches what it weighs a day on. */
  void dayAhead(double errorH, boolean inBounds) {
    dayAheadErrorsH.add(Math.abs(errorH));
    daysAheadInBounds += inBounds ? 1 : 0;
  }

  void forecast(double hours, double toldHours, boolean inBounds) {
    forecastErrors.add(Math.abs(toldHours - hours) / hours);
    forecastsInBounds += inBounds ? 1 : 0;
  }

  /** Takes in what another trial found. */
  public void add(EstimateScore other) {
    dayAheadErrorsH.addAll(other.dayAheadErrorsH);
    depletionErrors.addAll(other.depletionErrors);
    depletionErrorsSds.addAll(other.depletionErrorsSds);
    daysAheadInBounds += other.daysAheadInBounds;
    massErrorsG.addAll(other.massErrorsG);
    doseErrorsG.addAll(other.doseErrorsG);
    forecastErrors.addAll(other.forecastErrors);
    other.told.forEach(
        (what, counts) -> {
          told.get(what)[0] += counts[0];
          told.get(what)[1] += counts[1];
        });
    dosesWithin += other.dosesWithin;
    forecastsInBounds += other.forecastsInBounds;
    inventions += other.inventions;
    looks += other.looks;
    trustedLooks += other.trustedLooks;
  }

  /** The part of trusted looks that were within that many g of the truth. */
  public double massWithin(double g) {
    return part(massErrorsG.stream().filter(error -> error <= g).count(), massErrorsG.size());
  }

  /** The part of own doses that were measured within 0.5 g + 3 % of what the cup gained. */
  public double dosesWithin() {
    return part(dosesWithin, doseErrorsG.size());
  }

  /** The median of |told − true| ÷ true over forecasts of when a weight is reached. */
  public double medianForecastError() {
    return quantile(forecastErrors, 0.5);
  }

  /** The part of depletions told that lie within so many of their own standard deviations. */
  public double depletionsWithinSds(double sds) {
    long within = depletionErrorsSds.stream().filter(each -> each <= sds).count();
    return part(within, depletionErrorsSds.size());
  }

  /** The median of |told − true| of when a cup weighs what it weighs a day later, h. */
  public double medianDayAheadErrorH() {
    return quantile(dayAheadErrorsH, 0.5);
  }

  /** The part of those that lie within their 80 % bounds. */
  public double daysAheadInBounds() {
    return part(daysAheadInBounds, dayAheadErrorsH.size());
  }

  /** The part of a person's doings that were told as what they were. */
  public double toldRight() {
    int asked = told.values().stream().mapToInt(counts -> counts[0]).sum();
    return part(told.values().stream().mapToInt(counts -> counts[1]).sum(), asked);
  }

  /** A line a figure, with what is wanted of it. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(row("looks trusted, %", 100 * part(trustedLooks, looks), "of %,d", looks));
    lines.add(
        row(
            "mass within 0.5 g, % of trusted",
            100 * massWithin(0.5),
            "wanted 95; median %.3f g, 95 %% within %.3f g",
            quantile(massErrorsG, 0.5),
            quantile(massErrorsG, 0.95)));
    told.forEach(
        (what, counts) ->
            lines.add(
                row(
                    what.name().toLowerCase(Locale.ROOT).replace('_', ' ') + " told right, %",
                    100 * part(counts[1], counts[0]),
                    "wanted 95; of %d",
                    counts[0])));
    lines.add(row("told of cups left alone", inventions, "events in %,d looks", looks));
    lines.add(
        row(
            "own doses within 0.5 g + 3 %, %",
            100 * dosesWithin(),
            "of %d; 95 %% within %.3f g",
            doseErrorsG.size(),
            quantile(doseErrorsG, 0.95)));
    lines.add(
        row(
            "forecast error / horizon, median",
            medianForecastError(),
            "wanted 0.1 at most; of %d, %.1f %% in their 80 %% bounds",
            forecastErrors.size(),
            100 * part(forecastsInBounds, forecastErrors.size())));
    lines.addAll(linesOfItself(""));
    return lines;
  }

  /** What it tells of its own doubt: of forecasts and depletions. */
  public List<String> linesOfItself(String before) {
    List<String> lines = new ArrayList<>();
    lines.add(
        row(
            before + "a day ahead, median error, h",
            medianDayAheadErrorH(),
            "wanted 2 at most; of %d, %.1f %% in their 80 %% bounds",
            dayAheadErrorsH.size(),
            100 * daysAheadInBounds()));
    lines.add(
        row(
            before + "depletion within 1 sd, %",
            100 * depletionsWithinSds(1),
            "wanted 68; within 2 sd %.1f, wanted 95; rms %.4f",
            100 * depletionsWithinSds(2),
            Math.sqrt(
                depletionErrors.stream().mapToDouble(each -> each * each).average().orElse(0))));
    return lines;
  }

  private static String row(String name, double value, String rest, Object... values) {
    return String.format(
        Locale.ROOT, "%-37s%9.3f  %s", name, value, String.format(Locale.ROOT, rest, values));
  }

  private static double part(long of, long all) {
    return all == 0 ? Double.NaN : (double) of / all;
  }

  private static double quantile(List<Double> values, double part) {
    if (values.isEmpty()) {
      return Double.NaN;
    }
    List<Double> sorted = values.stream().sorted().toList();
    return sorted.get((int) Math.min(sorted.size() - 1, Math.floor(part * sorted.size())));
  }
}
