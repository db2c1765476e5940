package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What a bench file that is right comes to. */
class BenchFileTest {
  private static final String LEAST =
      """
      bench: sill
      mixes:
        peat:
          retention: {saturated: 0.9, residual: 0.1, alpha: 0.2, n: 1.4}
          unavailable: 0.2
          least_air: 0.1
          dry_density: 0.1
      vessels:
        1: {top: 3 in, base: 5 cm, depth: 80 mm, empty: 0.5 oz}
      cups:
        B-2: {vessel: 1, mix: peat, plant: "fig, white", stage: struck, cutting: 0.01 kg}
      """;

  @Test
  void everySectionIsReadInBaseUnits() throws SetupException {
    Bench bench = BenchFile.read("bench.yaml", BenchTexts.backRoom());

    assertEquals("back-room", bench.name());
    assertEquals(new Place(54.9, -1.6, ZoneId.of("Europe/London")), bench.place().orElseThrow());
    assertEquals(
        new WateringRules(
            new Window.Hours(LocalTime.of(8, 0), LocalTime.of(16, 0)), 30, Duration.ofMinutes(12)),
        bench.watering());
    assertEquals(Duration.ofMinutes(5), bench.tick());
    assertEquals(
        new FeedingRules(
            0,
            0.5,
            Map.of(RootStage.TOUGHENED, 0.5, RootStage.CIRCLING, 1.0),
            Map.of(RootStage.TOUGHENED, 0.33, RootStage.CIRCLING, 0.5),
            Map.of(RootStage.TOUGHENED, 100.0, RootStage.CIRCLING, 150.0),
            Optional.of(new FeedingRules.Pause(MonthDay.of(12, 1), MonthDay.of(12, 24))),
            List.of(new FeedingRules.PlanStep(LocalDate.of(2026, 11, 1), "leafy"))),
        bench.feeding());
    assertEquals(new StageLines(0.4, 0, 0.7), bench.rooting().lines().get(RootStage.CIRCLING));
    assertEquals(
        new ClimateRules(
            12, 3, 30, 27, Optional.empty(), Optional.empty(), ClimateRules.Covers.USUAL),
        bench.climate());
    assertEquals(
        new Mix("coir-perlite", 0.82, 0.12, 0.22, 1.55, 0.1, 0.1, 0.1),
        bench.mixes().get("coir-perlite"));
    assertEquals(new Vessel("short", 80, 55, 78, 9), bench.vessels().get("short"));
    assertEquals(new Tank("feed", 4000, Optional.of("leafy"), 0.5), bench.tanks().get("feed"));
    assertEquals(
        new Cup(
            "A1",
            "tall",
            "coir-perlite",
            "blackcurrant",
            Optional.of(LocalDate.of(2026, 11, 14)),
            RootStage.TOUGHENED,
            14,
            Optional.empty(),
            Cup.Wiring.NONE),
        bench.cups().get("A1"));
    assertTrue(bench.board().isEmpty());
  }

  /** 5.8 g in a US gallon of 3.785411784 L. */
  @Test
  void labelRateIsWeighedByTheGrowersSpoon() throws SetupException {
    Feed feed = BenchTexts.backRoomBench().feeds().get("leafy");
    assertEquals(5.8 / 3.785411784, feed.labelGPerL(), 1e-12);
    assertEquals(Duration.ofDays(14), feed.labelEvery());

    String tablespoon = BenchTexts.backRoom().replace("1 tsp", "1 tbsp");
    assertEquals(
        3 * 5.8 / 3.785411784,
        BenchFile.read("bench.yaml", tablespoon).feeds().get("leafy").labelGPerL(),
        1e-12);

    String weighed =
        BenchTexts.backRoom().replace("amount: 1 tsp, per: 1 US gal", "amount: 2 g, per: 4 L");
    assertEquals(
        0.5, BenchFile.read("bench.yaml", weighed).feeds().get("leafy").labelGPerL(), 1e-12);
  }

  @Test
  void whatIsMissingTakesTheUsualValues() throws SetupException {
    Bench bench = BenchFile.read("sill.yaml", LEAST);

    assertTrue(bench.place().isEmpty());
    assertEquals(WateringRules.USUAL, bench.watering());
    assertEquals(Duration.ofMinutes(5), bench.tick());
    assertEquals(FeedingRules.USUAL, bench.feeding());
    assertEquals(ClimateRules.USUAL, bench.climate());
    assertEquals(Map.of(), bench.rooting().lines());
    assertEquals(KnownPlants.table(), bench.rooting().plants());
    assertEquals(
        Map.of("plain", new Tank("plain", Double.POSITIVE_INFINITY, Optional.empty(), 0)),
        bench.tanks());
    assertEquals(new Vessel("1", 76.2, 50, 80, 14.1747615625), bench.vessels().get("1"));
    Cup cup = bench.cups().get("B-2");
    assertEquals("fig, white", cup.plant());
    assertEquals("1", cup.vessel());
    assertEquals(10, cup.cuttingG());
    assertTrue(cup.struck().isEmpty());
  }

  @Test
  void partsOfASectionMayBeMissing() throws SetupException {
    Bench bench =
        BenchFile.read(
            "sill.yaml",
            LEAST
                + "watering: {pass: 1 US fl oz}\nclimate: {cold: 50 F}\nfeeding: {target: {toughened: 0.3}}\n");
    assertEquals(29.5735295625, bench.watering().passMl());
    assertEquals(WateringRules.USUAL.soak(), bench.watering().soak());
    assertEquals(10, bench.climate().coldC());
    assertEquals(
        Map.of(RootStage.TOUGHENED, 0.3, RootStage.CIRCLING, 1.0), bench.feeding().target());
  }

  @Test
  void timesAndDatesNeedNoQuotesAndTakeThem() throws SetupException {
    String bare = BenchTexts.backRoom().replace("\"08:00\"", "08:00").replace("\"16:00\"", "16:00");
    String quoted =
        BenchTexts.backRoom().replace("2026-11-14", "\"2026-11-14\"").replace("12-01", "'12-01'");
    Bench plain = BenchTexts.backRoomBench();
    assertEquals(plain, BenchFile.read("bench.yaml", bare));
    assertEquals(plain, BenchFile.read("bench.yaml", quoted));
  }

  @Test
  void daylightIsTakenWhereThePlaceIsKnown() throws SetupException {
    String yaml = BenchTexts.backRoom().replace("{from: \"08:00\", to: \"16:00\"}", "daylight");
    assertEquals(new Window.Daylight(), BenchFile.read("bench.yaml", yaml).watering().window());
  }

  @Test
  void aCupsOwnLinesStandBeforeThoseOfItsStage() throws SetupException {
    String yaml =
        BenchTexts.backRoom()
            .replace("cutting: 14 g", "cutting: 14 g, lines: {due: 0.45, refill: -0.1, dry: 0.8}");
    Bench bench = BenchFile.read("bench.yaml", yaml);
    assertEquals(new StageLines(0.45, -0.1, 0.8), bench.linesOf(bench.cups().get("A1")));
    assertEquals(StageLines.usual(RootStage.STRUCK), bench.linesOf(bench.cups().get("A2")));
  }

  @Test
  void thePlanIsPutInOrderOfDate() throws SetupException {
    String yaml =
        BenchTexts.backRoom()
            .replace(
                "    - {from: 2026-11-01, feed: leafy}",
                "    - {from: 2027-04-15, feed: leafy}\n    - {from: 2026-11-01, feed: leafy}");
    assertEquals(
        List.of(LocalDate.of(2026, 11, 1), LocalDate.of(2027, 4, 15)),
        BenchFile.read("bench.yaml", yaml).feeding().plan().stream()
            .map(FeedingRules.PlanStep::from)
            .toList());
  }

  @Test
  void theBoardIsRead() throws SetupException {
    Bench bench = BenchFile.read("bench.yaml", BenchTexts.wired());
    BoardWiring board = bench.board().orElseThrow();
    assertEquals(1, board.i2cBus());
    assertEquals(
        new BoardWiring.Scale(
            "nau7802",
            new BoardWiring.BusPlace(0x2A, Optional.of(new BoardWiring.MuxChannel(0x70, 1))),
            -1049.8,
            -1200),
        board.scales().get("s2"));
    assertEquals(
        new BoardWiring.AirSensor("sht3x", new BoardWiring.BusPlace(0x44, Optional.empty())),
        board.air().orElseThrow());
    assertEquals(new BoardWiring.PumpWiring(17, 1.5), board.pump());
    assertEquals(new BoardWiring.Valve(5, Optional.of("plain")), board.valves().get("plain"));
    assertEquals(
        new Cup.Wiring(Optional.of("s1"), Optional.of("v1"), Optional.of("p1")),
        bench.cups().get("A1").wiring());
  }

  @Test
  void theBoardsOtherSensorsAreRead() throws SetupException {
    BoardWiring.More more =
        BenchFile.read("bench.yaml", BenchTexts.wired()).board().orElseThrow().more();
    BoardWiring.BusPlace converter = new BoardWiring.BusPlace(0x48, Optional.empty());
    assertEquals(
        new BoardWiring.Probe(
            "ads1115",
            converter,
            1,
            List.of(new BoardWiring.ProbePoint(2.3, 0.1), new BoardWiring.ProbePoint(1.2, 0.8))),
        more.probes().get("p2"));
    assertEquals("28-0316a2795aff", more.root().orElseThrow().id());
    assertEquals(Optional.empty(), more.outdoor());
    assertEquals(Optional.of(26), more.leak());
    assertEquals(Optional.of(27), more.heartbeat());
    assertEquals(Map.of("plain", new BoardWiring.FloatSwitch(24, 500)), more.gauges());
  }

  /** Its lines are its own: 98 is one, 2 is no wire of the bus, and 3 is pulled up by nobody. */
  @Test
  void ofAChipThatIsNamedAnyLineMayBeTaken() throws SetupException {
    String file =
        BenchTexts.wired()
            .replace("bus: 1", "gpio_chip: periphs-banks")
            .replace("{gpio: 22}", "{gpio: 98}")
            .replace("{gpio: 23}", "{gpio: 2}")
            .replace("{gpio: 17, rate", "{gpio: 3, rate");
    Bench bench = BenchFile.read("bench.yaml", file);
    BoardWiring board = bench.board().orElseThrow();
    assertEquals(Optional.of("periphs-banks"), board.more().gpioChip());
    assertEquals(new BoardWiring.Gpio(98, false), board.valves().get("v1").output());
    BenchSafety safety = new BenchSafety(bench);
    assertEquals(List.of(), safety.parts());
    assertEquals(1, safety.notes().size());
    assertTrue(safety.notes().get(0).startsWith("What the lines of periphs-banks do until"));
  }

  @Test
  void clockedConvertersExpandersAndOwnCapsAreRead() throws SetupException {
    String yaml =
        BenchTexts.wired()
            .replace(
                "  air:",
                "    t1: {chip: hx711, clock: 7, data: 8, counts_per_g: 420, zero: 0}\n  air:")
            .replace("{gpio: 24, at: 500 mL}", "{scale: t1, empty: 0.9 kg}")
            .replace("v1: {gpio: 22}", "v1: {expander: 0x20, pin: 3}")
            .replace("v2: {gpio: 23}", "v2: {gpio: 23, active: low}")
            .replace("rate: 1.5 mL/s", "rate: 1.5 mL/s, longest: {pass: 20 s, day: 1 h}");
    BoardWiring board = BenchFile.read("bench.yaml", yaml).board().orElseThrow();
    assertEquals(new BoardWiring.ClockedLines(7, 8), board.scales().get("t1").place());
    assertEquals(Map.of("plain", new BoardWiring.TankScale("t1", 900)), board.more().gauges());
    BoardWiring.BusPlace expander = new BoardWiring.BusPlace(0x20, Optional.empty());
    assertEquals(new BoardWiring.ExpanderPin(expander, 3), board.valves().get("v1").output());
    assertEquals(new BoardWiring.Gpio(23, true), board.valves().get("v2").output());
    assertEquals(
        new BoardWiring.OnTimes(
            Optional.of(Duration.ofSeconds(20)),
            Optional.empty(),
            Optional.of(Duration.ofHours(1))),
        board.pump().longest());
  }

  @Test
  void windowsLineEndingsAndByteOrderMarkAreTaken() throws SetupException {
    byte[] bytes =
        ("\uFEFF" + BenchTexts.backRoom().replace("\n", "\r\n")).getBytes(StandardCharsets.UTF_8);
    assertEquals(BenchTexts.backRoomBench(), BenchFile.read("bench.yaml", bytes));
  }
}
