package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.BenchTexts;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.TankState;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** The example bench's file, as it is told to whoever shows it. */
class TellSetupTest {
  private final DraftBench bench = new DraftBench();
  private final BenchSetup told = new TellSetup(bench.bench, Optional.empty()).of(bench.before, AT);

  @Test
  void rulesAreThoseOfTheFile() {
    assertEquals(AT, told.at());
    assertEquals(Optional.of(ZoneId.of("Europe/London")), told.zone());
    assertEquals(30.0, told.watering().passMl());
    assertEquals(720.0, told.watering().soakS());
    assertEquals(0.0, told.feeding().floor());
    assertEquals(0.5, told.feeding().ceiling());
    assertEquals(1.0, told.feeding().target().get(RootStage.CIRCLING));
    assertEquals(12.0, told.climate().coldC());
    assertEquals(3.0, told.climate().frostC());
    assertEquals(30.0, told.climate().heatC());
    assertEquals(0.30, told.waterEcMsPerCm());
  }

  /** A level teaspoon of 5.8 g in a US gallon of 3.785412 L each fortnight. */
  @Test
  void thingsAreThoseOfTheFile() {
    assertEquals(new BenchSetup.Vessel(92.0, 60.0, 112.0, 13.0), told.vessels().get("tall"));
    assertEquals(0.10, told.mixes().get("coir-perlite").unavailable());
    assertEquals(0.10, told.mixes().get("coir-perlite").leastAir());
    BenchSetup.Feed feed = told.feeds().get("leafy");
    assertEquals(1.5322, feed.labelGPerL(), 1e-4);
    assertEquals(1_209_600.0, feed.labelEveryS());
    assertEquals(new BenchSetup.Tank(4_000.0, Optional.of("leafy"), 0.5), told.tanks().get("feed"));
    assertEquals(new BenchSetup.Tank(12_000.0, Optional.empty(), 0.0), told.tanks().get("plain"));
  }

  /** Two litres lie below its float. */
  @Test
  void whatLiesBelowAFloatIsNotToBeHad() {
    BenchSetup.Tank plain = new BenchSetup.Tank(12_000.0, Optional.empty(), 0.0, 2_000.0);
    assertEquals(700.0, plain.toBeHadMl(2_700.0));
    assertEquals(0.0, plain.toBeHadMl(1_900.0));
    assertEquals(500.0, new BenchSetup.Tank(4_000.0, Optional.empty(), 0.0).toBeHadMl(500.0));
  }

  @Test
  void cupsAreThoseOfTheFileWithTheLinesOfTheirStage() {
    BenchSetup.Cup cup = told.cups().get("A1");
    assertEquals("tall", cup.vessel());
    assertEquals(Optional.of(LocalDate.of(2026, 11, 14)), cup.struck());
    assertEquals(14.0, cup.cuttingG());
    assertEquals(0.05, cup.lines().refill());
    assertEquals(0.50, cup.lines().due());
    assertEquals(0.75, cup.lines().dry());
  }

  @Test
  void ordersHaveChangedCupsAndTanks() {
    BenchState was = bench.before;
    SortedMap<String, CupState> cups = new TreeMap<>(was.cups());
    cups.remove("A2");
    SortedMap<String, TankState> tanks = new TreeMap<>(was.tanks());
    tanks.put("feed", new TankState(null, 0.0, 4_000.0, AT, null));
    TellSetup tell = new TellSetup(bench.bench, Optional.empty());
    assertTrue(tell.of(was, AT).cups().containsKey("A2"));
    BenchSetup now = tell.of(was.over(cups, was.air(), tanks), AT);
    assertFalse(now.cups().containsKey("A2"));
    assertEquals(new BenchSetup.Tank(4_000.0, Optional.empty(), 0.0), now.tanks().get("feed"));
  }

  @Test
  void whatDoesNotChangeIsToldOfItsOwnTime() {
    TellSetup tell = new TellSetup(bench.bench, Optional.empty());
    BenchSetup first = tell.of(bench.before, AT);
    BenchSetup again = tell.of(bench.before, AT.plusSeconds(300));
    assertEquals(AT.plusSeconds(300), again.at());
    assertTrue(again.sameAs(first));
    assertSame(first.cups(), again.cups(), "it is not worded anew");
  }

  /** In the order of the contract, which CatalogueTest holds. */
  @Test
  void tablesAreWhole() {
    assertEquals("hardware", told.limits().get(0).code());
    assertEquals(26, told.limits().size());
    assertEquals("mL", limit("pass").unit());
    assertEquals("lifts", limit("window").dose());
    assertEquals(51, told.alerts().size());
    assertEquals(0, alert("leak").rank());
    assertEquals("g", alert("dose-short").unit());
  }

  private BenchSetup.Limit limit(String code) {
    return told.limits().stream().filter(one -> one.code().equals(code)).findFirst().get();
  }

  private BenchSetup.Alert alert(String code) {
    return told.alerts().stream().filter(one -> one.code().equals(code)).findFirst().get();
  }

  /** A1 holds a blackcurrant of the program's table; A2 a plant of the bench's own. */
  @Test
  void plantsAreToldByTheGrowersWord() {
    Story own =
        new Story(
            Story.BENCH.replaceFirst("plant: mulberry", "plant: my-quince")
                + "\nplants: {my-quince: {like: quince, lines: 0.05, days_to_roots: 30..60}}\n",
            "2027-02-14T08:00:00Z",
            Tick.Rounds.ONE_A_TICK);
    own.with("A1", 350.0).look();
    BenchSetup setup = own.tick.setup(own.state);
    BenchSetup.KnownPlant currant = setup.plants().get("blackcurrant");
    assertEquals(List.of(14.0, 28.0), currant.days());
    assertEquals(20.0, currant.daysAtC());
    assertFalse(currant.own());
    BenchSetup.KnownPlant quince = setup.plants().get("my-quince");
    assertEquals(List.of(30.0, 60.0), quince.days());
    assertEquals(0.05, quince.lineShift());
    assertTrue(quince.own());
  }

  @Test
  void whatTheGrowerWaivedIsToldWithItsReason() throws Exception {
    assertEquals(List.of(), told.runsWithout());
    assertFalse(Json.MAPPER.valueToTree(told).has("runs_without"), "nothing is said of nothing");
    String waived =
        BenchTexts.wired()
            .replaceFirst(
                "(?m)^  leak: .*$", "  without: {leak: stands in a shower tray with a drain}");
    Tick tick = new Tick(BenchFile.read("bench.yaml", waived));
    BenchSetup setup = new TellSetup(tick.bench(), Optional.empty()).of(tick.fresh(), AT);
    assertEquals(
        List.of(
            "Runs without leak: stands in a shower tray with a drain",
            "Nobody knows what the tanks hold; whether the drip tray holds that is not known: say it"
                + " in the bench file (tray)."),
        setup.runsWithout());
    Schemas.assertFits("setup", Json.MAPPER.valueToTree(setup));
    Bench withTray = BenchFile.read("bench.yaml", waived + "\ntray: 16 L\n");
    assertEquals(
        1, new TellSetup(withTray, Optional.empty()).of(tick.fresh(), AT).runsWithout().size());
  }
}
