package dev.cupwarden.board;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.AllowedPass.Part;
import dev.cupwarden.core.setup.BenchSafety;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * Gives one pass: the cup's valve and the tank's open, pump last on and first off, plain water
 * before feed, one cup at a time. It waits in short steps and beats the dead-man at each, and ends
 * at once when the leak sensor is not dry.
 */
final class Doser {
  private static final Duration STEP = Duration.ofMillis(250);

  /** Our choice: the hose's pressure falls before a valve is shut against it. */
  private static final Duration RELIEF = Duration.ofMillis(300);

  private final Outputs outputs;
  private final Plumbing plumbing;
  private final OnTimeCaps caps;
  private final LeakLine leak;
  private final double mlPerS;
  private final Pace pace;

  Doser(
      Outputs outputs,
      Plumbing plumbing,
      OnTimeCaps caps,
      LeakLine leak,
      double mlPerS,
      Pace pace) {
    this.outputs = outputs;
    this.plumbing = plumbing;
    this.caps = caps;
    this.leak = leak;
    this.mlPerS = mlPerS;
    this.pace = pace;
  }

  /** The pump moved that much before this start, and stopped that long ago. */
  void ranBefore(Duration ago, double ml) {
    caps.ran(pace.nanos() - ago.toNanos(), onTime(ml));
  }

  /** Gives the pass and waits for its end. All outputs are off afterwards, whatever happens. */
  DoseOutcome give(AllowedPass pass) {
    return give(new Order(pass.cup(), pass.plain(), pass.feed()));
  }

  /** Runs the pump from the plain tank for that long; for calibration only. */
  DoseOutcome runPlain(String cup, Duration time) {
    Part water = new Part(plumbing.plainTank().orElse(null), time.toNanos() * 1e-9 * mlPerS);
    return give(new Order(cup, water, new Part(null, 0)));
  }

  /** What is to be run. */
  private record Order(String cup, Part plain, Part feed) {
    double totalMl() {
      return plain.ml() + feed.ml();
    }
  }

  private DoseOutcome give(Order pass) {
    double[] ranMl = new double[2];
    try {
      Optional<String> refusal = refusal(pass);
      if (refusal.isPresent()) {
        return new DoseOutcome.Failed(0, 0, refusal.get());
      }
      outputs.arm();
      leak.passBegins(outputs::trip);
      outputs.open(plumbing.valveOf(pass.cup()).orElseThrow());
      ranMl[0] = draw(false, pass.plain());
      ranMl[1] = draw(true, pass.feed());
      return new DoseOutcome.Given(ranMl[0], ranMl[1]);
    } catch (Stopped stopped) {
      ranMl[stopped.feed ? 1 : 0] = stopped.ranMl;
      return new DoseOutcome.Failed(ranMl[0], ranMl[1], stopped.getMessage());
    } catch (ChipException e) {
      return new DoseOutcome.Failed(ranMl[0], ranMl[1], e.getMessage());
    } finally {
      outputs.disarm();
      leak.passEnded();
    }
  }

  /** Why the pass cannot begin, if it cannot. */
  private Optional<String> refusal(Order pass) {
    outputs.allOff();
    Optional<String> stuck = outputs.stuckOn();
    if (stuck.isPresent()) {
      return stuck;
    }
    if (!Double.isFinite(pass.totalMl())
        || pass.plain().ml() < 0
        || pass.feed().ml() < 0
        || pass.totalMl() <= 0) {
      return Optional.of(
          "A pass of %s mL plain and %s mL feed cannot be given."
              .formatted(pass.plain().ml(), pass.feed().ml()));
    }
    if (plumbing.valveOf(pass.cup()).isEmpty()) {
      return Optional.of(BenchSafety.noValve(pass.cup()));
    }
    for (Part part : List.of(pass.plain(), pass.feed())) {
      if (part.ml() > 0 && source(part).isEmpty()) {
        return Optional.of(BenchSafety.noTankValve(part.tank()));
      }
    }
    Optional<String> leaking = leak.look();
    return leaking.isPresent() ? leaking : caps.refuses(pace.nanos(), onTime(pass.totalMl()));
  }

  private Duration onTime(double ml) {
    return Duration.ofNanos(Math.round(ml / mlPerS * 1e9));
  }

  private Optional<Plumbing.Source> source(Part part) {
    return Optional.ofNullable(part.tank()).flatMap(plumbing::source);
  }

  /** Draws that much from a tank; returns what ran, mL. */
  private double draw(boolean feed, Part part) throws ChipException, Stopped {
    if (part.ml() <= 0) {
      return 0;
    }
    Optional<String> tankValve = source(part).orElseThrow().tankValve();
    if (tankValve.isPresent()) {
      outputs.open(tankValve.get());
    }
    double ranMl = run(feed, onTime(part.ml()));
    try {
      pace.pause(RELIEF);
      outputs.beat();
      if (tankValve.isPresent()) {
        outputs.shut(tankValve.get());
      }
      return ranMl;
    } catch (ChipException e) {
      throw new Stopped(e.getMessage(), feed, ranMl);
    }
  }

  /** Runs the pump for that long; returns what it really ran, mL. */
  private double run(boolean feed, Duration onTime) throws Stopped {
    try {
      outputs.pumpOn();
      long end = pace.nanos() + onTime.toNanos();
      while (pace.nanos() < end) {
        stopWhenAsked();
        outputs.beat();
        pace.until(Math.min(end, pace.nanos() + STEP.toNanos()));
      }
      stopWhenAsked();
      outputs.pumpOff();
      return ranMl();
    } catch (ChipException e) {
      outputs.allOff();
      throw new Stopped(e.getMessage(), feed, ranMl());
    } finally {
      caps.ran(pace.nanos(), outputs.lastRun());
    }
  }

  private double ranMl() {
    return outputs.lastRun().toNanos() * 1e-9 * mlPerS;
  }

  private void stopWhenAsked() throws ChipException {
    if (outputs.tripped().isPresent()) {
      throw new ChipException(outputs.tripped().get());
    }
    if (Thread.currentThread().isInterrupted()) {
      throw new ChipException("The pass was stopped from outside.");
    }
  }

  /** The pump was stopped before its time. */
  private static final class Stopped extends Exception {
    private static final long serialVersionUID = 1L;
    final boolean feed;
    final double ranMl;

    Stopped(String reason, boolean feed, double ranMl) {
      super(reason);
      this.feed = feed;
      this.ranMl = ranMl;
    }
  }
}
