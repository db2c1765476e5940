package dev.cupwarden.app.calibrate;

import dev.cupwarden.board.BoardException;
import dev.cupwarden.core.substrate.ProbeCurve;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** A moisture probe at contents found by weighing its cup, from dry to wet. */
final class ProbeCalibration {
  private final Workbench workbench;
  private final Dialogue dialogue;
  private final String probe;

  ProbeCalibration(Workbench workbench, Dialogue dialogue, String probe) {
    this.workbench = workbench;
    this.dialogue = dialogue;
    this.probe = probe;
  }

  /**
   * @param thetas about which contents, rising, volume fraction; three or more
   */
  ScaleCalibration.Result run(List<Double> thetas) throws BoardException, IOException, Refused {
    List<ProbeCurve.Point> points = new ArrayList<>();
    while (points.size() < thetas.size()) {
      double aim = thetas.get(points.size());
      try {
        dialogue.confirm(
            String.format(
                Locale.ROOT, "Bring the cup of probe %s to about %.2f and weigh it.", probe, aim));
        workbench.moisten(probe, aim);
        double volts = workbench.volts(probe);
        var known = workbench.trueTheta(probe);
        double theta =
            dialogue.number(
                "Water, volume fraction, by weight",
                known.isPresent() ? known : java.util.OptionalDouble.of(aim));
        points.add(new ProbeCurve.Point(volts, theta));
        dialogue.say(
            String.format(
                Locale.ROOT,
                "%d of %d: %.3f V at %.3f",
                points.size(),
                thetas.size(),
                volts,
                theta));
      } catch (Dialogue.Undo undo) {
        if (!points.isEmpty()) {
          points.remove(points.size() - 1);
        }
      } catch (IllegalArgumentException outOfRange) {
        throw new Refused("A content " + outOfRange.getMessage() + ".");
      }
    }
    try {
      ProbeCurve.through(points);
    } catch (IllegalArgumentException turns) {
      throw new Refused("The probe cannot be used so: " + turns.getMessage() + ".");
    }
    String keys =
        points.stream()
            .map(p -> String.format(Locale.ROOT, "{volts: %.3f, theta: %.3f}", p.raw(), p.theta()))
            .collect(Collectors.joining(", ", "points: [", "]"));
    return new ScaleCalibration.Result(keys, points.size() + " points, always one way");
  }
}
