package dev.cupwarden.board;

import dev.cupwarden.simulator.VirtualTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** Output lines that write down what is done to them, each change once, and can refuse. */
final class RecordedLines {
  private final List<String> changes = new ArrayList<>();
  private final Set<String> on = new HashSet<>();
  private final Set<String> refusingOff = new HashSet<>();
  private final Set<String> refusingOn = new HashSet<>();
  private final Set<String> breakingOff = new HashSet<>();
  private final VirtualTime time;

  RecordedLines(VirtualTime time) {
    this.time = time;
  }

  OutputLine line(String name) {
    return new OutputLine() {
      @Override
      public String name() {
        return name;
      }

      @Override
      public void on() throws ChipException {
        change(name, true, refusingOn);
      }

      @Override
      public void off() throws ChipException {
        if (breaksOff(name)) {
          throw new IllegalStateException("The wait for the bus was interrupted.");
        }
        change(name, false, refusingOff);
      }
    };
  }

  private synchronized void change(String name, boolean nowOn, Set<String> refusing)
      throws ChipException {
    if (refusing.contains(name)) {
      throw new ChipException(name + " does not switch.");
    }
    if (nowOn ? on.add(name) : on.remove(name)) {
      changes.add("%s%s@%.1f".formatted(nowOn ? "+" : "-", name, time.nanos() * 1e-9));
    }
  }

  Map<String, OutputLine> lines(String... names) {
    Map<String, OutputLine> lines = new TreeMap<>();
    for (String name : names) {
      lines.put(name, line(name));
    }
    return lines;
  }

  synchronized void refuseOff(String name) {
    refusingOff.add(name);
  }

  /** Not as a chip would: what lies below the driver breaks. */
  synchronized void breakOff(String name) {
    breakingOff.add(name);
  }

  private synchronized boolean breaksOff(String name) {
    return breakingOff.contains(name);
  }

  synchronized void refuseOn(String name) {
    refusingOn.add(name);
  }

  synchronized void obeyAgain() {
    refusingOff.clear();
    refusingOn.clear();
  }

  synchronized List<String> changes() {
    return List.copyOf(changes);
  }

  synchronized Set<String> on() {
    return Set.copyOf(on);
  }
}
