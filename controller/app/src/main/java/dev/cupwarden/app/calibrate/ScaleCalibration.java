package dev.cupwarden.app.calibrate;

import dev.cupwarden.board.BoardException;
import dev.cupwarden.core.weighing.ClassThree;
import dev.cupwarden.core.weighing.ScaleLine;
import dev.cupwarden.core.weighing.ScaleProof;
import dev.cupwarden.core.weighing.TestLoad;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A scale by known weights, judged against class III of OIML R 76: linearity over all loads, and
 * repeatability of the greatest, which is put on three times more.
 */
final class ScaleCalibration {
  private static final int REPEATS = 3;

  private final Workbench workbench;
  private final Dialogue dialogue;
  private final String scale;

  ScaleCalibration(Workbench workbench, Dialogue dialogue, String scale) {
    this.workbench = workbench;
    this.dialogue = dialogue;
    this.scale = scale;
  }

  /**
   * What came of it.
   *
   * @param keys for the bench file
   * @param findings the judged figures in a sentence
   */
  record Result(String keys, String findings) {}

  /**
   * @param loads two or more, nothing among them
   * @param intervalG verification interval that the scale is to be good for
   */
  Result run(List<TestLoad> loads, double intervalG) throws BoardException, IOException, Refused {
    List<ScaleLine.Sample> samples = new ArrayList<>();
    List<Double> repeats = new ArrayList<>();
    TestLoad greatest = loads.get(loads.size() - 1);
    int steps = loads.size() + REPEATS;
    int step = 0;
    while (step < steps) {
      try {
        if (step < loads.size()) {
          double counts = weigh(loads.get(step), step, steps);
          samples.add(new ScaleLine.Sample(loads.get(step), counts));
        } else {
          dialogue.confirm("Take everything off scale %s.".formatted(scale));
          workbench.load(scale, 0);
          repeats.add(weigh(greatest, step, steps));
        }
        step++;
      } catch (Dialogue.Undo undo) {
        step = Math.max(0, step - 1);
        removeBeyond(samples, step);
        removeBeyond(repeats, Math.max(0, step - loads.size()));
      }
    }
    return judged(samples, greatest, repeats, intervalG);
  }

  private static void removeBeyond(List<?> list, int size) {
    while (list.size() > size) {
      list.remove(list.size() - 1);
    }
  }

  private double weigh(TestLoad load, int step, int steps)
      throws BoardException, IOException, Refused, Dialogue.Undo {
    dialogue.confirm(
        load.massG() == 0
            ? "Leave scale %s empty.".formatted(scale)
            : String.format(Locale.ROOT, "Put %.1f g on scale %s.", load.massG(), scale));
    workbench.load(scale, load.massG());
    double counts = workbench.counts(scale);
    dialogue.say(
        String.format(
            Locale.ROOT, "%d of %d: %.1f g, %.0f counts", step + 1, steps, load.massG(), counts));
    return counts;
  }

  private static Result judged(
      List<ScaleLine.Sample> samples, TestLoad greatest, List<Double> repeats, double intervalG)
      throws Refused {
    ScaleLine line;
    try {
      line = ScaleLine.fitted(samples);
    } catch (IllegalArgumentException flat) {
      throw new Refused("The counts do not move with the weights: " + flat.getMessage());
    }
    ScaleProof proof = new ScaleProof(line, new ClassThree(intervalG));
    ScaleProof.Finding linear = proof.linearity(samples);
    ScaleProof.Finding repeated = proof.repeatability(greatest, repeats);
    String findings = words("linearity", linear) + "; " + words("repeatability", repeated);
    if (linear.verdict() == ScaleProof.Verdict.FAIL
        || repeated.verdict() == ScaleProof.Verdict.FAIL) {
      throw new Refused(
          "The scale is not good for an interval of %s g: %s."
              .formatted(String.format(Locale.ROOT, "%.2f", intervalG), findings));
    }
    return new Result(
        String.format(
            Locale.ROOT, "counts_per_g: %.3f, zero: %.0f", line.countsPerG(), line.zeroCounts()),
        findings);
  }

  private static String words(String what, ScaleProof.Finding finding) {
    return String.format(
        Locale.ROOT,
        "%s %.2f g of %.2f g at %.0f g (%s)",
        what,
        finding.errorG(),
        finding.limitG(),
        finding.loadG(),
        finding.verdict().name().toLowerCase(Locale.ROOT));
  }
}
