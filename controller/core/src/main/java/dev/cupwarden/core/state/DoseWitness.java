package dev.cupwarden.core.state;

import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.dosing.Rising;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.dosing.Steps;

/**
 * How a cup's weight bears out what was put out, to it and to others.
 *
 * @param learned whether a pass was ever seen on its scale
 * @param soaking how it takes water
 * @param onTrial pass that its weight has not yet borne out; null where there is none
 * @param rising climb of its weight with nothing ordered
 * @param shortRun passes running that hardly raised it, together; null where there are none
 * @param steps rises from one raw reading to the next
 */
public record DoseWitness(
    boolean learned,
    Soaking soaking,
    PassOnTrial onTrial,
    Rising rising,
    PassOnTrial shortRun,
    Steps steps) {
  public static final DoseWitness NONE =
      new DoseWitness(false, Soaking.USUAL, null, Rising.NONE, null, Steps.NONE);

  /** What an older journal does not know is null in it, and nothing is known of it. */
  public DoseWitness {
    steps = steps == null ? Steps.NONE : steps;
  }

  /** Passes running that hardly raised it. */
  public int shortPasses() {
    return shortRun == null ? 0 : shortRun.passes();
  }

  /** After a pass that its weight must bear out, with those that wait already. */
  public DoseWitness tried(PassOnTrial pass) {
    return onTrial(onTrial == null ? pass : onTrial.plus(pass));
  }

  /** Judged, or never to be. */
  public DoseWitness untried() {
    return onTrial(null);
  }

  private DoseWitness onTrial(PassOnTrial pass) {
    return new DoseWitness(learned, soaking, pass, rising, shortRun, steps);
  }

  /** A pass was seen on its scale. */
  public DoseWitness arrived() {
    return new DoseWitness(true, soaking, onTrial, rising, null, steps);
  }

  /** A pass hardly raised it. */
  public DoseWitness cameShort(PassOnTrial pass) {
    PassOnTrial run = shortRun == null ? pass : shortRun.plus(pass);
    return new DoseWitness(learned, soaking, onTrial, rising, run, steps);
  }

  /** Passes that hardly raised it no longer count. */
  public DoseWitness withoutShortRun() {
    return new DoseWitness(learned, soaking, onTrial, rising, null, steps);
  }

  public DoseWitness with(Soaking next) {
    return new DoseWitness(learned, next, onTrial, rising, shortRun, steps);
  }

  public DoseWitness with(Rising next) {
    return new DoseWitness(learned, soaking, onTrial, next, shortRun, steps);
  }

  public DoseWitness with(Steps next) {
    return new DoseWitness(learned, soaking, onTrial, rising, shortRun, next);
  }

  /** A person has looked: nothing seen before counts against it. */
  public DoseWitness cleared() {
    return new DoseWitness(learned, soaking.soaked(), onTrial, Rising.NONE, null, Steps.NONE);
  }

  /** A person has stood it in water, or watered it. */
  public DoseWitness soaked() {
    return with(soaking.soaked());
  }

  /** In another vessel or mix: no pass was seen there, but how it takes water is kept. */
  public DoseWitness repotted() {
    return NONE.with(soaking);
  }
}
