package dev.cupwarden.simulator;

import dev.cupwarden.simulator.chips.ChipFault;
import dev.cupwarden.simulator.chips.SimulatedDs18b20;
import java.util.Map;
import java.util.function.Consumer;

/** What can be broken on a simulated bench, and mended. */
public final class BenchFaults {
  private final Electronics electronics;
  private final SimulatedPlumbing plumbing;
  private final Map<String, LoadCell> cells;
  private final Consumer<Runnable> now;

  /**
   * @param now brings the world up to the present, then runs what is given
   */
  BenchFaults(
      Electronics electronics,
      SimulatedPlumbing plumbing,
      Map<String, LoadCell> cells,
      Consumer<Runnable> now) {
    this.electronics = electronics;
    this.plumbing = plumbing;
    this.cells = cells;
    this.now = now;
  }

  /**
   * Breaks a chip: that of a scale or probe by its name, {@code air}, an expander by {@code
   * expander 0x20}; {@code NONE} mends it.
   */
  public void breakChip(String part, ChipFault fault) {
    electronics.breakChip(part, fault);
  }

  /** A dip of the supply at a chip. */
  public void interruptPower(String part) {
    electronics.interruptPower(part);
  }

  /** Breaks the I2C switch at an address. */
  public void breakSwitch(int address, ChipFault fault) {
    electronics.breakSwitch(address, fault);
  }

  /** Breaks the root thermometer. */
  public void breakRoot(SimulatedDs18b20.Fault fault) {
    electronics.breakRoot(fault);
  }

  /** Water closes or leaves the contact on an input line, which is pulled up otherwise. */
  public void wet(int gpio, boolean isWet) {
    electronics.wet(gpio, isWet);
  }

  /** The wire to a contact on an input line breaks, or is mended. */
  public void cutWire(int gpio, boolean isCut) {
    electronics.cutWire(gpio, isCut);
  }

  /** An input line can no longer be read by the program, or can again. */
  public void loseLine(int gpio, boolean isLost) {
    electronics.loseLine(gpio, isLost);
  }

  /** A bad joint at a load cell: noise so many times the usual; 1 mends it. */
  public void loosen(String scale, double times) {
    now.accept(() -> cells.get(scale).loosen(times));
  }

  /** Breaks a valve; {@code NONE} mends it. */
  public void breakValve(String valve, ValveFault fault) {
    now.accept(() -> plumbing.breakValve(valve, fault));
  }

  /** The pump's switch fails short, past its line and its timer; or is replaced. */
  public void shortPump(boolean isShort) {
    now.accept(() -> plumbing.shortPump(isShort));
  }

  /** The tubes behind two cups' valves change places; the same again puts them right. */
  public void exchangeTubes(String valve, String other) {
    now.accept(() -> plumbing.exchangeTubes(valve, other));
  }

  /** The hose slips off the pump, which turns and moves nothing; or is put on again. */
  public void pullHose(boolean isOff) {
    now.accept(() -> plumbing.pullHose(isOff));
  }
}
