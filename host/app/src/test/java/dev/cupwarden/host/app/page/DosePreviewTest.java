package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the page says of a dose before it is sent is what the controller's own tick then gives. */
class DosePreviewTest {
  private static final Instant NOON = Instant.parse("2027-02-14T12:00:00Z");
  private static final String BENCH =
      """
      bench: sill
      place: {latitude: 54.9, longitude: -1.6, zone: Europe/London}
      watering:
        window: {from: "08:00", to: "20:00"}
        pass: 30 mL
        soak: 12 min
      tick: 5 min
      mixes:
        coir:
          retention: {saturated: 0.82, residual: 0.12, alpha: 0.22, n: 1.55}
          unavailable: 0.10
          least_air: 0.10
          dry_density: 0.10
      vessels:
        tiny: {top: 60 mm, base: 45 mm, depth: 72 mm, empty: 5 g}
        tall: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}
      tanks:
        plain: {size: 12 L}
      cups:
        C1: {vessel: tiny, mix: coir, plant: mulberry, stage: toughened, cutting: 6 g}
        C2: {vessel: tall, mix: coir, plant: mulberry, stage: toughened, cutting: 6 g}
      """;
  private static Browser browser;
  private static StubHost host;

  @BeforeAll
  static void open() {
    browser = new Browser();
    host = StubHost.troubled();
    browser.size(Browser.WIDE).open(host.address());
  }

  @AfterAll
  static void close() {
    browser.close();
    host.close();
  }

  /** The controller's own bench; one cup, which loses nothing. */
  private static final class Sill {
    final Tick tick;
    final String cup;
    BenchState state;
    Instant at = NOON;
    double massG;

    Sill(String cup, double massG) throws Exception {
      Bench bench = BenchFile.read("bench.yaml", BENCH);
      this.tick = new Tick(bench);
      this.state = tick.fresh();
      this.cup = cup;
      this.massG = massG;
      look("");
    }

    List<Double> look(String order) throws Exception {
      String line =
          """
          {"at":"%s","mass_g":{"%s":%.1f},"orders":[%s]}"""
              .formatted(at, cup, massG, order);
      Tick.Step step =
          tick.step(state, ObservationReader.read(line, Set.of("C1", "C2"), Set.of("plain")));
      state = step.state();
      at = at.plus(Duration.ofMinutes(5));
      List<Double> given = step.passes().stream().map(AllowedPass::totalMl).toList();
      massG += given.stream().mapToDouble(Double::doubleValue).sum();
      return given;
    }

    CupStatus status() {
      return tick.standing(state).statuses().stream()
          .filter(one -> one.cup().equals(cup))
          .findFirst()
          .orElseThrow();
    }
  }

  /** Short of its due line, so that nothing but the dose waters it. */
  @ParameterizedTest(name = "{0}, {1} mL short of capacity, {2} mL ordered: {3} passes")
  @CsvSource({
    "C1, 45, 200, 4",
    "C1, 45, 15, 1",
    "C1, 45, 17, 2",
    "C2, 95, 200, 3",
    "C2, 95, 40, 2"
  })
  void passesAreThoseOfTheController(String cup, double shortMl, double orderMl, int passes)
      throws Exception {
    double capacityG = new Sill(cup, cup.equals("C1") ? 120.0 : 350.0).status().capacityG();
    Sill sill = new Sill(cup, capacityG - shortMl);
    CupStatus told = sill.status();
    String says = String.join("\n", preview(told, orderMl));
    List<Double> given =
        new ArrayList<>(
            sill.look(
                """
                {"id":"o","kind":"dose","cup":"%s","ml":%.1f,"strength":0}"""
                    .formatted(cup, orderMl)));
    for (int tick = 0; tick < 40; tick++) {
      given.addAll(sill.look(""));
    }
    assertEquals(passes, given.size(), () -> told + " got " + given);
    assertTrue(
        says.contains(
            "Comes in about %d %s of at most %.0f mL"
                .formatted(passes, passes == 1 ? "pass" : "passes", told.nextPassMl())),
        says + " " + given);
    assertEquals(Math.min(told.nextPassMl(), orderMl), given.get(0), 0.1);
  }

  private static List<String> preview(CupStatus cup, double orderMl) {
    Object said =
        browser.driver.executeAsyncScript(
            "const [cup, ml, done] = arguments;"
                + "import('/js/orders.js').then(({before}) => {"
                + "  const told = JSON.parse(cup);"
                + "  const bench = {cups: new Map([[told.cup, told]]), alerts: [], setup: null};"
                + "  done(before('dose', bench, {cup: told.cup, ml, strength: 0})"
                + "    .map((line) => line.words));"
                + "});",
            Json.written(cup),
            orderMl);
    return ((List<?>) said).stream().map(String::valueOf).toList();
  }
}
