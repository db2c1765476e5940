package dev.cupwarden.app.calibrate;

import dev.cupwarden.board.BoardException;
import dev.cupwarden.core.weighing.WaterDensity;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/** The pump's rate: several runs of one length into a measuring vessel. */
final class PumpCalibration {
  /** Our choice: what separates the runs is then below the error of a kitchen scale. */
  private static final double MOST_SPREAD = 0.10;

  private final Workbench workbench;
  private final Dialogue dialogue;
  private final String cup;
  private final OptionalDouble weighedAtC;

  /**
   * @param weighedAtC temperature of the water where runs are weighed in g; empty where they are
   *     read off in mL
   */
  PumpCalibration(Workbench workbench, Dialogue dialogue, String cup, OptionalDouble weighedAtC) {
    this.workbench = workbench;
    this.dialogue = dialogue;
    this.cup = cup;
    this.weighedAtC = weighedAtC;
  }

  /**
   * @param runs three or more
   * @param measuredMl what was measured in each run, where it is known beforehand; g where it is
   *     weighed
   */
  ScaleCalibration.Result run(int runs, Duration span, List<Double> measuredMl)
      throws BoardException, IOException, Refused {
    List<Double> rates = new ArrayList<>();
    while (rates.size() < runs) {
      try {
        dialogue.confirm(
            "Hang the tube of cup %s into a measuring vessel, away from mains.".formatted(cup));
        OptionalDouble before = workbench.drawnMl();
        workbench.runPump(cup, span);
        OptionalDouble after = workbench.drawnMl();
        OptionalDouble proposal =
            rates.size() < measuredMl.size()
                ? OptionalDouble.of(measuredMl.get(rates.size()))
                : before.isPresent()
                    ? OptionalDouble.of(after.getAsDouble() - before.getAsDouble())
                    : OptionalDouble.empty();
        String unit = weighedAtC.isPresent() ? "g of water" : "mL";
        double measured = dialogue.number(unit + " in the vessel", proposal);
        double ml =
            weighedAtC.isPresent()
                ? WaterDensity.volumeMl(measured, weighedAtC.getAsDouble())
                : measured;
        rates.add(ml / (span.toNanos() * 1e-9));
        dialogue.say(
            String.format(
                Locale.ROOT,
                "%d of %d: %.3f mL/s",
                rates.size(),
                runs,
                rates.get(rates.size() - 1)));
      } catch (Dialogue.Undo undo) {
        if (!rates.isEmpty()) {
          rates.remove(rates.size() - 1);
        }
      }
    }
    return judged(rates);
  }

  private static ScaleCalibration.Result judged(List<Double> rates) throws Refused {
    var summary = rates.stream().mapToDouble(Double::doubleValue).summaryStatistics();
    double mean = summary.getAverage();
    double spread = mean > 0 ? (summary.getMax() - summary.getMin()) / mean : 1;
    String findings =
        String.format(
            Locale.ROOT,
            "%d runs, spread %.1f %% of %.0f %%",
            rates.size(),
            100 * spread,
            100 * MOST_SPREAD);
    if (!(spread <= MOST_SPREAD)) {
      throw new Refused("The runs do not agree: " + findings + ". Look for air in the line.");
    }
    return new ScaleCalibration.Result(
        String.format(Locale.ROOT, "rate: %.3f mL/s", mean), findings);
  }
}
