package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.FullDisk;
import dev.cupwarden.simulator.ValveFault;
import dev.cupwarden.simulator.VirtualTime;
import dev.cupwarden.simulator.chips.ChipFault;
import dev.cupwarden.simulator.chips.SimulatedDs18b20;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;

/** What can fail on a bench, each with its break, its mending, and how long it lasts. */
final class FaultCases {
  private static final int MUX = 0x70;
  private static final int LEAK = 26;
  private static final int FLOAT = 24;

  /** Before the window opens: every cup has been seen for an hour and a half. */
  private static final Instant EARLY = Instant.parse("2027-01-10T07:31:00Z");

  /** The window has just opened, the first passes are about to be given. */
  static final Instant DUE = Instant.parse("2027-01-10T07:59:00Z");

  static final Duration TWO_HOURS = Duration.ofHours(2);

  /** Longer than a sensor may be silent before a person is told. */
  private static final Duration LONG = Duration.ofHours(7);

  /** Something done to a bench. */
  interface Act {
    void on(FaultBench bench) throws Exception;
  }

  /**
   * One fault.
   *
   * @param cup the cup it concerns; null when all
   */
  record Case(String name, String cup, Instant breaksAt, Duration lasts, Act breaks, Act mends) {}

  private FaultCases() {}

  static List<Case> all() {
    List<Case> cases = new ArrayList<>();
    cases.add(new Case("nothing is broken", null, EARLY, LONG, bench -> {}, bench -> {}));
    scales(cases);
    otherChips(cases);
    bus(cases);
    water(cases);
    contacts(cases);
    ProgramFaults.add(cases);
    return List.copyOf(cases);
  }

  private static Case chip(String name, String cup, String part, ChipFault fault, Duration lasts) {
    return new Case(
        name,
        cup,
        EARLY,
        lasts,
        bench -> bench.world().faults().breakChip(part, fault),
        bench -> bench.world().faults().breakChip(part, ChipFault.NONE));
  }

  private static void scales(List<Case> cases) {
    for (String[] scale : new String[][] {{"NAU7802", "A1", "K1"}, {"HX711", "A2", "K2"}}) {
      cases.add(chip(scale[0] + " silent", scale[1], scale[2], ChipFault.SILENT, LONG));
      cases.add(chip(scale[0] + " stuck", scale[1], scale[2], ChipFault.STUCK, LONG));
      cases.add(chip(scale[0] + " all zeroes", scale[1], scale[2], ChipFault.ZEROES, TWO_HOURS));
      cases.add(chip(scale[0] + " all ones", scale[1], scale[2], ChipFault.ONES, TWO_HOURS));
      cases.add(chip(scale[0] + " turns bits", scale[1], scale[2], ChipFault.GARBLED, TWO_HOURS));
    }
    cases.add(
        new Case(
            "NAU7802 lost its supply for a moment",
            "A1",
            EARLY,
            TWO_HOURS,
            bench -> bench.world().faults().interruptPower("K1"),
            bench -> {}));
    cases.add(
        new Case(
            "load cell noisy, 2,000 times the usual",
            "A1",
            EARLY,
            LONG,
            bench -> bench.world().faults().loosen("K1", 2000),
            bench -> bench.world().faults().loosen("K1", 1)));
    cases.add(
        new Case(
            "scale out of range, 5 kg lean on it",
            "A1",
            EARLY,
            TWO_HOURS,
            bench -> bench.world().person().lean("A1", 5000),
            bench -> bench.world().person().lean("A1", 0)));
    cases.add(
        new Case(
            "cup lifted without a word",
            "A1",
            EARLY,
            LONG,
            bench -> bench.world().person().lift("A1"),
            bench -> bench.world().person().putBack("A1")));
  }

  private static void otherChips(List<Case> cases) {
    cases.add(chip("ADS1115 silent", "A3", "p3", ChipFault.SILENT, LONG));
    cases.add(chip("ADS1115 stuck", "A3", "p3", ChipFault.STUCK, LONG));
    cases.add(chip("ADS1115 all zeroes", "A3", "p3", ChipFault.ZEROES, LONG));
    cases.add(chip("SHT3x silent", null, "air", ChipFault.SILENT, LONG));
    cases.add(chip("SHT3x wrong CRC", null, "air", ChipFault.GARBLED, LONG));
    cases.add(chip("PCF8574 silent", "A1", "expander 0x20", ChipFault.SILENT, TWO_HOURS));
    cases.add(
        new Case(
            "PCF8574 silent in the midst of a pass through it",
            "A1",
            DUE,
            TWO_HOURS,
            bench ->
                whenWaterComes(
                    bench,
                    "A1",
                    () -> bench.world().faults().breakChip("expander 0x20", ChipFault.SILENT)),
            bench -> bench.world().faults().breakChip("expander 0x20", ChipFault.NONE)));
    cases.add(
        new Case(
            "PCF8574 lost its supply for a moment in the midst of a pass through it",
            "A1",
            DUE,
            TWO_HOURS,
            bench ->
                whenWaterComes(
                    bench, "A1", () -> bench.world().faults().interruptPower("expander 0x20")),
            bench -> {}));
    for (SimulatedDs18b20.Fault fault : SimulatedDs18b20.Fault.values()) {
      if (fault != SimulatedDs18b20.Fault.NONE) {
        cases.add(
            new Case(
                "DS18B20 " + rootWords(fault),
                null,
                EARLY,
                LONG,
                bench -> bench.world().faults().breakRoot(fault),
                bench -> bench.world().faults().breakRoot(SimulatedDs18b20.Fault.NONE)));
      }
    }
  }

  private static String rootWords(SimulatedDs18b20.Fault fault) {
    return switch (fault) {
      case NONE -> "well";
      case SILENT -> "silent";
      case SHORTED -> "shorted";
      case WEAK -> "without enough supply (85 °C)";
      case GARBLED -> "wrong CRC";
    };
  }

  private static void bus(List<Case> cases) {
    cases.add(chip("bus held by the air sensor", null, "air", ChipFault.BUS_ERROR, TWO_HOURS));
    cases.add(
        new Case(
            "TCA9548A silent",
            "A1",
            EARLY,
            TWO_HOURS,
            bench -> bench.world().faults().breakSwitch(MUX, ChipFault.SILENT),
            bench -> bench.world().faults().breakSwitch(MUX, ChipFault.NONE)));
    cases.add(
        new Case(
            "bus held in the midst of a pass",
            null,
            DUE,
            TWO_HOURS,
            bench ->
                whenPumpStarts(
                    bench, () -> bench.world().faults().breakChip("air", ChipFault.BUS_ERROR)),
            bench -> bench.world().faults().breakChip("air", ChipFault.NONE)));
  }

  private static Case valve(String name, String cup, String valve, ValveFault fault) {
    return new Case(
        name,
        cup,
        EARLY,
        LONG,
        bench -> bench.world().faults().breakValve(valve, fault),
        bench -> bench.world().faults().breakValve(valve, ValveFault.NONE));
  }

  private static void water(List<Case> cases) {
    cases.add(valve("valve stuck open, its cup is due", "A1", "v1", ValveFault.STUCK_OPEN));
    cases.add(
        new Case(
            "valve stuck open, its cup is not due",
            "A1",
            EARLY,
            LONG,
            bench -> {
              bench.waterByHand("A1", 100);
              bench.runFor(Duration.ofMinutes(15));
              bench.breaksNow();
              bench.world().faults().breakValve("v1", ValveFault.STUCK_OPEN);
            },
            bench -> bench.world().faults().breakValve("v1", ValveFault.NONE)));
    cases.add(
        new Case(
            "tubes of two cups exchanged, one of them is due",
            "A1",
            EARLY,
            LONG,
            bench -> {
              bench.waterByHand("A1", 100);
              bench.runFor(Duration.ofMinutes(15));
              bench.breaksNow();
              bench.world().faults().exchangeTubes("v1", "v2");
            },
            bench -> bench.world().faults().exchangeTubes("v1", "v2")));
    cases.add(
        new Case(
            "pump's switch short: it runs on",
            null,
            DUE,
            TWO_HOURS,
            bench -> whenPumpStarts(bench, () -> bench.world().faults().shortPump(true)),
            bench -> bench.world().faults().shortPump(false)));
    cases.add(valve("valve stuck shut", "A1", "v1", ValveFault.STUCK_SHUT));
    cases.add(valve("valve leaking", "A1", "v1", ValveFault.LEAKING));
    cases.add(valve("tank valve stuck shut", null, "plain", ValveFault.STUCK_SHUT));
    cases.add(
        new Case(
            "pump without water, its hose off",
            null,
            DUE,
            TWO_HOURS,
            bench -> bench.world().faults().pullHose(true),
            bench -> bench.world().faults().pullHose(false)));
    cases.add(
        new Case(
            "tank empty, told by its float",
            null,
            DUE,
            TWO_HOURS,
            bench -> bench.world().fillTo("plain", 0),
            bench -> bench.fill("plain")));
    cases.add(
        new Case(
            "tank empty, its float stuck up",
            null,
            DUE,
            TWO_HOURS,
            bench -> {
              bench.world().faults().wet(FLOAT, true);
              bench.world().fillTo("plain", 0);
            },
            bench -> {
              bench.world().faults().wet(FLOAT, false);
              bench.fill("plain");
            }));
  }

  private static void contacts(List<Case> cases) {
    cases.add(
        new Case(
            "wire to the float broken",
            null,
            DUE,
            TWO_HOURS,
            bench -> bench.world().faults().cutWire(FLOAT, true),
            bench -> {
              bench.world().faults().cutWire(FLOAT, false);
              bench.fill("plain");
            }));
    cases.add(
        new Case(
            "water in the tray",
            null,
            DUE,
            TWO_HOURS,
            bench -> bench.world().faults().wet(LEAK, true),
            bench -> bench.world().faults().wet(LEAK, false)));
    cases.add(
        new Case(
            "wire to the leak sensor broken, and water in the tray",
            null,
            DUE,
            TWO_HOURS,
            bench -> {
              bench.world().faults().cutWire(LEAK, true);
              bench.world().faults().wet(LEAK, true);
            },
            bench -> {
              bench.world().faults().wet(LEAK, false);
              bench.world().faults().cutWire(LEAK, false);
            }));
    cases.add(
        new Case(
            "leak sensor not to be read",
            null,
            DUE,
            TWO_HOURS,
            bench -> bench.world().faults().loseLine(LEAK, true),
            bench -> bench.world().faults().loseLine(LEAK, false)));
    cases.add(
        new Case(
            "clock a year ahead",
            null,
            DUE,
            TWO_HOURS,
            bench -> turnClock(bench, 365),
            bench -> turnClock(bench, -365)));
    cases.add(
        new Case(
            "clock a year behind",
            null,
            DUE,
            TWO_HOURS,
            bench -> turnClock(bench, -365),
            bench -> turnClock(bench, 365)));
    cases.add(
        new Case(
            "disk full",
            null,
            DUE,
            TWO_HOURS,
            bench -> FullDisk.at(bench.journal(), true),
            bench -> FullDisk.at(bench.journal(), false)));
  }

  private static void turnClock(FaultBench bench, int days) {
    bench.world().time().setWall(bench.time().wall().plus(Duration.ofDays(days)));
  }

  /** Does that once, within a second after the pump has started. */
  static void whenPumpStarts(FaultBench bench, Runnable work) {
    onceWhen(bench, () -> bench.world().pumpOn(), work);
  }

  /** Does that once, within a second after water has come to a cup. */
  private static void whenWaterComes(FaultBench bench, String cup, Runnable work) {
    double beforeMl = bench.waterInMl().get(cup);
    onceWhen(bench, () -> bench.waterInMl().get(cup) > beforeMl, work);
  }

  private static void onceWhen(FaultBench bench, BooleanSupplier so, Runnable work) {
    var looks = new VirtualTime.Handle[1];
    looks[0] =
        bench
            .world()
            .time()
            .every(
                Duration.ofSeconds(1),
                () -> {
                  if (so.getAsBoolean()) {
                    looks[0].close();
                    bench.breaksNow();
                    work.run();
                  }
                });
  }
}
