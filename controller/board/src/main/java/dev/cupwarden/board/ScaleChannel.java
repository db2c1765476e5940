package dev.cupwarden.board;

import dev.cupwarden.core.setup.BoardWiring;
import java.time.Duration;
import java.util.Arrays;
import java.util.Map;

/** One scale within a scan: where its converter stands, its conversions so far, or its fault. */
final class ScaleChannel {
  private enum State {
    OFF,
    SETTLING,
    RUNNING,
    FAILED
  }

  private final String name;
  private final BoardWiring.Scale scale;
  private final WeightConverter converter;
  private State state = State.OFF;
  private int[] conversions = {};
  private boolean begunAgain;
  private String fault = "";

  ScaleChannel(String name, BoardWiring.Scale scale, WeightConverter converter) {
    this.name = name;
    this.scale = scale;
    this.converter = converter;
  }

  Duration period() {
    return converter.period();
  }

  /** A new scan begins: a converter that is off or has failed is begun. */
  void wake() {
    conversions = new int[0];
    begunAgain = false;
    if (state != State.RUNNING) {
      begin();
    }
  }

  private void begin() {
    try {
      converter.begin();
      state = State.SETTLING;
    } catch (ChipException e) {
      fail(e.getMessage());
    }
  }

  boolean wantsSettling() {
    return state == State.SETTLING;
  }

  boolean live() {
    return state == State.RUNNING;
  }

  /** The scan's rounds begin anew; what this one has is as good as before and is kept out. */
  void restart() {
    conversions = new int[0];
  }

  /** Asks once whether it has settled; true when nothing more is to be asked. */
  boolean pollSettled() {
    try {
      if (!converter.settled()) {
        return false;
      }
      state = State.RUNNING;
    } catch (ChipException e) {
      fail(e.getMessage());
    }
    return true;
  }

  /** Asks once for a conversion; true when nothing more is to be asked in this round. */
  boolean pollConversion() {
    try {
      if (!converter.ready()) {
        return false;
      }
      int counts = converter.counts();
      conversions = Arrays.copyOf(conversions, conversions.length + 1);
      conversions[conversions.length - 1] = counts;
    } catch (WeightConverter.SupplyLostException e) {
      beginAgain(e);
    } catch (ChipException e) {
      fail(e.getMessage());
    }
    return true;
  }

  /** Once in a scan; a supply that comes and goes is a fault. */
  private void beginAgain(WeightConverter.SupplyLostException lost) {
    if (begunAgain) {
      fail(lost.getMessage());
      return;
    }
    begunAgain = true;
    begin();
  }

  /** Not read in this scan. */
  void fail(String sentence) {
    state = State.FAILED;
    fault = sentence;
  }

  /** Writes the weight, or the fault. */
  void report(Map<String, Double> massG, Map<String, String> faults) {
    if (state != State.RUNNING) {
      faults.put(name, "Scale %s: %s".formatted(name, fault));
      return;
    }
    int[] sorted = conversions.clone();
    Arrays.sort(sorted);
    int least = sorted[0];
    int greatest = sorted[sorted.length - 1];
    if (least == greatest && (least == 0 || least == -1)) {
      // A data line held low or let go reads as one of these, again and again.
      state = State.FAILED;
      faults.put(
          name, "Scale %s: Every conversion reads %d: the line is stuck.".formatted(name, least));
      return;
    }
    massG.put(name, (sorted[sorted.length / 2] - scale.zeroCounts()) / scale.countsPerG());
  }
}
