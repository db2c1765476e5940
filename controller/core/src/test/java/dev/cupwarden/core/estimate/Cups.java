package dev.cupwarden.core.estimate;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** A cup on a bench of the tests: time moves by hand, what it shows is typed in. */
final class Cups {
  static final Instant START = Instant.parse("2027-02-14T08:00:00Z");

  /** The tall cup of the contract's bench: 516 mL of coir and perlite. */
  static final WeightFrame TALL = new WeightFrame(78.559, 401.872, 501.3, 271.754);

  final Estimator estimator = new Estimator(new EstimatorSettings(Duration.ofMinutes(5)));
  final List<WeightEvent> events = new ArrayList<>();
  EstimateState state = EstimateState.fresh();
  Instant now = START;
  private boolean first = true;

  /** One look five minutes after the last. */
  CupEstimate reads(double massG) {
    return look(5, massG, 0, false);
  }

  CupEstimate looks(double minutes, double massG) {
    return look(minutes, massG, 0, false);
  }

  CupEstimate look(double minutes, double massG, double doseMl, boolean neighboursMoved) {
    return look(
        minutes,
        new CupReading(now, massG, doseMl, Double.NaN, Double.NaN, Double.NaN, neighboursMoved));
  }

  CupEstimate look(double minutes, CupReading told) {
    if (!first) {
      now = now.plusMillis(Math.round(minutes * 60_000));
    }
    first = false;
    CupReading reading =
        new CupReading(
            now,
            told.massG(),
            told.ownDoseMl(),
            told.vpdKpa(),
            told.tempC(),
            told.light(),
            told.neighboursMoved());
    EstimateStep step = estimator.step(state, TALL, reading);
    state = step.state();
    events.addAll(step.events());
    return estimate();
  }

  CupEstimate estimate() {
    return CupEstimate.at(state, TALL, now);
  }

  /** Dries at that rate from that weight for so many looks of five minutes; the weight then. */
  double dries(int looks, double fromG, double gPerH) {
    double massG = fromG;
    for (int i = 0; i < looks; i++) {
      massG = fromG - gPerH * i / 12.0 + wobble(i);
      look(5, massG, 0, true);
    }
    return fromG - gPerH * looks / 12.0;
  }

  /** A few hundredths of a gram that never repeat: a live scale. */
  static double wobble(int i) {
    double scattered = Math.sin(i * 12.9898) * 43758.5453;
    return 0.1 * (scattered - Math.floor(scattered) - 0.5);
  }

  String code() {
    return estimate().distrust().map(distrust -> distrust.code().word()).orElse("trusted");
  }

  /** Every event so far, by its kind, in order. */
  String told() {
    return events.stream()
        .map(event -> event.getClass().getSimpleName())
        .collect(Collectors.joining(" "));
  }

  <E extends WeightEvent> List<E> events(Class<E> kind) {
    return events.stream().filter(kind::isInstance).map(kind::cast).toList();
  }
}
