package dev.cupwarden.app.loop;

import static java.util.Map.entry;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * What a fault may come to at most: our choice, from what a cup of 270 mL bears and from how soon
 * its part can be seen at a tick of 5 min.
 *
 * @param linesOff outputs are off so long after the break; null where no program can switch them
 * @param beyondMl into cups beyond what was ordered, with the pump's own error in it
 * @param toldIn the first of the codes is told within; null where nothing is told
 * @param codes those that may be told, the one that must first
 * @param hardware the part that must answer where the program cannot; may be empty
 */
record FaultBounds(
    Duration linesOff, long beyondMl, Duration toldIn, List<String> codes, String hardware) {
  /** Half of a usual pass: a pump's error over a morning, and what runs out of the hose. */
  private static final long PUMP_ERROR_ML = 15;

  /** One round of passes to the other three cups, of which an open valve takes half. */
  private static final long HALF_ROUND_ML = 45 + PUMP_ERROR_ML;

  /** A whole pass to another cup. */
  private static final long A_PASS_ML = 30 + PUMP_ERROR_ML;

  /** What a run came to; {@code told}: when each code was first told, from the break. */
  record Seen(Duration linesOff, long beyondMl, Map<String, Duration> told) {}

  private static final FaultBounds NOTHING_TOLD =
      new FaultBounds(Duration.ZERO, PUMP_ERROR_ML, null, List.of(), "");

  private static final Map<String, FaultBounds> BY_FAULT =
      Map.ofEntries(
          entry("nothing is broken", NOTHING_TOLD),
          entry("NAU7802 silent", min(15, "scale-silent", "blind-ration")),
          entry("NAU7802 stuck", min(15, "scale-silent", "blind-ration")),
          entry("NAU7802 all zeroes", min(15, "scale-silent")),
          entry("NAU7802 all ones", min(15, "scale-silent")),
          entry("NAU7802 turns bits", min(15, "scale-silent")),
          entry("HX711 silent", min(15, "scale-silent", "near-dry", "blind-ration")),
          entry("HX711 stuck", min(60, "scale-stuck", "blind-ration")),
          entry("HX711 all zeroes", min(15, "scale-silent")),
          entry("HX711 all ones", min(15, "scale-silent")),
          entry("HX711 turns bits", min(10, "scale-out-of-range")),
          entry("NAU7802 lost its supply for a moment", NOTHING_TOLD),
          entry(
              "load cell noisy, 2,000 times the usual",
              hours(2, "scale-noisy", "near-dry", "blind-ration")),
          entry("scale out of range, 5 kg lean on it", min(10, "scale-out-of-range")),
          entry("cup lifted without a word", hours(7, "cup-away")),
          entry("ADS1115 silent", min(15, "scale-silent", "blind-ration")),
          entry("ADS1115 stuck", min(15, "scale-silent", "blind-ration")),
          entry("ADS1115 all zeroes", min(15, "scale-silent", "blind-ration")),
          entry("SHT3x silent", hours(7, "sensor-dead")),
          entry("SHT3x wrong CRC", hours(7, "sensor-dead")),
          entry("PCF8574 silent", min(6, "board-fault")),
          entry(
              "PCF8574 silent in the midst of a pass through it",
              min(6, "board-fault")
                  .linesOff(null)
                  .by(
                      "none: its valve stays energised over a pump that is off; the supply's"
                          + " fuse")),
          entry(
              "PCF8574 lost its supply for a moment in the midst of a pass through it",
              NOTHING_TOLD
                  .linesOff(Duration.ofSeconds(90))
                  .by(
                      "its power-on reset shuts the valve; a pump or hose that stands the"
                          + " pressure")),
          entry("DS18B20 silent", hours(7, "sensor-dead")),
          entry("DS18B20 shorted", hours(7, "sensor-dead")),
          entry("DS18B20 without enough supply (85 °C)", hours(7, "sensor-dead")),
          entry("DS18B20 wrong CRC", hours(7, "sensor-dead")),
          entry("bus held by the air sensor", min(6, "board-fault", "scale-silent")),
          entry("TCA9548A silent", min(15, "scale-silent")),
          entry(
              "bus held in the midst of a pass",
              min(6, "board-fault", "scale-silent").linesOff(Duration.ofSeconds(30))),
          entry(
              "valve stuck open, its cup is due",
              min(35, "valve-leaking", "dose-over").beyond(HALF_ROUND_ML)),
          entry(
              "valve stuck open, its cup is not due",
              min(20, "valve-leaking").beyond(HALF_ROUND_ML)),
          entry(
              "tubes of two cups exchanged, one of them is due",
              min(20, "valve-leaking").beyond(A_PASS_ML)),
          entry(
              "pump's switch short: it runs on",
              NOTHING_TOLD.linesOff(null).by("a second switch in series with the pump's")),
          entry("valve stuck shut", min(55, "dose-short")),
          entry(
              "valve leaking",
              min(30, "valve-leaking", "scale-noisy", "blind-ration")
                  .beyond(20 * 7 + 2 * PUMP_ERROR_ML)
                  .by("siphon break, and a tap at the tank")),
          entry("tank valve stuck shut", min(55, "dose-short")),
          entry("pump without water, its hose off", min(30, "dose-short")),
          entry("tank empty, told by its float", min(6, "tank-empty", "tank-low")),
          entry("tank empty, its float stuck up", min(30, "dose-short")),
          entry("wire to the float broken", min(6, "tank-empty", "tank-low")),
          entry("water in the tray", min(6, "leak")),
          entry(
              "wire to the leak sensor broken, and water in the tray",
              NOTHING_TOLD.by("a second sensor, wetted by hand each month")),
          entry("leak sensor not to be read", min(6, "leak")),
          entry("clock a year ahead", min(6, "clock")),
          entry("clock a year behind", min(6, "clock")),
          entry("disk full", hours(3, "store-full")),
          entry(
              "process killed in mid-pass, its lines stay as they are",
              NOTHING_TOLD.linesOff(Duration.ofSeconds(5)).by("pump-run timer")),
          entry(
              "power cut in mid-pass",
              NOTHING_TOLD
                  .linesOff(Duration.ofSeconds(1))
                  .by("a pull-down at each gate, normally closed valves")),
          entry(
              "loop hangs in mid-pass",
              NOTHING_TOLD.linesOff(Duration.ofSeconds(60)).by("pump-run timer")),
          entry("loop hangs in a reading", NOTHING_TOLD),
          entry("journal damaged, found at a start; a copy is put back", min(6, "store-full")));

  /**
   * The bounds of a fault.
   *
   * @throws IllegalStateException where it has none: no fault is played without
   */
  static FaultBounds of(String fault) {
    FaultBounds bounds = BY_FAULT.get(fault);
    if (bounds == null) {
      throw new IllegalStateException("The fault \"" + fault + "\" has no bounds in FaultBounds.");
    }
    return bounds;
  }

  private static FaultBounds min(long minutes, String... codes) {
    return new FaultBounds(
        Duration.ZERO, PUMP_ERROR_ML, Duration.ofMinutes(minutes), Arrays.asList(codes), "");
  }

  private static FaultBounds hours(long hours, String... codes) {
    return min(60 * hours, codes);
  }

  private FaultBounds linesOff(Duration within) {
    return new FaultBounds(within, beyondMl, toldIn, codes, hardware);
  }

  private FaultBounds beyond(long ml) {
    return new FaultBounds(linesOff, ml, toldIn, codes, hardware);
  }

  private FaultBounds by(String part) {
    return new FaultBounds(linesOff, beyondMl, toldIn, codes, part);
  }

  /** A sentence for each bound that the run broke. */
  List<String> broken(String fault, Seen seen) {
    List<String> sentences = new ArrayList<>();
    if (linesOff != null && (seen.linesOff() == null || seen.linesOff().compareTo(linesOff) > 0)) {
      sentences.add(
          "%s: outputs off %s, the bound is %s."
              .formatted(fault, after(seen.linesOff()), FaultTable.rounded(linesOff)));
    }
    if (seen.beyondMl() > beyondMl) {
      sentences.add(
          "%s: %d mL came beyond the order, the bound is %d mL."
              .formatted(fault, seen.beyondMl(), beyondMl));
    }
    if (toldIn != null) {
      Duration told = seen.told().get(codes.get(0));
      if (told == null || told.compareTo(toldIn) > 0) {
        sentences.add(
            "%s: told as %s %s, the bound is %s."
                .formatted(fault, codes.get(0), after(told), FaultTable.rounded(toldIn)));
      }
    }
    for (String code : seen.told().keySet()) {
      if (!codes.contains(code)) {
        sentences.add(
            "%s: told as %s, which it is not; expected: %s."
                .formatted(fault, code, codes.isEmpty() ? "nothing" : String.join(", ", codes)));
      }
    }
    return sentences;
  }

  private static String after(Duration time) {
    return time == null ? "never" : "after " + FaultTable.rounded(time);
  }

  /** As the page shows it. */
  String text() {
    String off =
        linesOff == null
            ? "on until hardware answers"
            : linesOff.isZero() ? "off at once" : "off in " + FaultTable.rounded(linesOff);
    String told =
        toldIn == null
            ? "nothing told"
            : "`%s` in %s".formatted(codes.get(0), FaultTable.rounded(toldIn));
    String others =
        codes.stream().skip(1).map(code -> "`" + code + "`").collect(Collectors.joining(", "));
    return "%s; %d mL; %s%s"
        .formatted(off, beyondMl, told, others.isEmpty() ? "" : ", then " + others);
  }
}
