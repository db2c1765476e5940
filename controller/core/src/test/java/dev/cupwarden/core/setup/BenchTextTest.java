package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One key of a bench file said otherwise; all else stays as the grower wrote it. */
class BenchTextTest {
  private static final String FILE =
      """
      bench: sill    # the north window
      watering:
        window: {from: "08:00", to: "16:00"}
        pass: 30 mL  # small cups
      lines: {}
      climate: {cold: 12 C, frost: 3 C}
      mixes:
        peat: {retention: {saturated: 0.82, residual: 0.12, alpha: 0.22, n: 1.55}, unavailable: 0.10, least_air: 0.10, dry_density: 0.10}
      vessels:
        pot: {top: 80 mm, base: 80 mm, depth: 100 mm, empty: 20 g}
      feeds:
        leafy: {analysis: {N: 20, P2O5: 10, K2O: 20}, label: {amount: 1 g, per: 1 L, every: 14 d}, spoon: 5 g, ec: 1.2}
      tanks:
        plain: {size: 10 L}
        feed: {size: 4 L, feed: leafy, strength: 0.5}
      cups:
        A.1: {vessel: pot, mix: peat, plant: currant, stage: white, cutting: 10 g}
        A2:
          vessel: pot
          mix: peat
          plant: vine
          stage: white
          cutting: 10 g
      """;

  private static final BenchText SILL = new BenchText("sill.yaml", FILE);

  private static BenchText changed(String path, String from, String to) throws SetupException {
    return SILL.with(new BenchChange(path, from, to));
  }

  private static String refusal(String path, String from, String to) {
    return assertThrows(SetupException.class, () -> changed(path, from, to)).getMessage();
  }

  @Test
  void valueChangesAndRemarksStay() throws SetupException {
    BenchText text = changed("watering.pass", "\"30 mL\"", "\"25 mL\"");
    assertEquals(FILE.replace("pass: 30 mL", "pass: 25 mL"), text.yaml());
    assertEquals(25.0, text.read().watering().passMl());
  }

  @Test
  void keysOfAGroupOnOneLineAndNamesWithDots() throws SetupException {
    assertEquals(
        FILE.replace("to: \"16:00\"", "to: \"17:30\""),
        changed("watering.window.to", "\"16:00\"", "\"17:30\"").yaml());
    assertEquals(
        FILE.replace("plant: currant", "plant: mulberry"),
        changed("cups.A.1.plant", "\"currant\"", "\"mulberry\"").yaml());
  }

  @Test
  void wholeGroupOnOneLineIsGivenAnew() throws SetupException {
    BenchText text =
        changed(
            "watering.window",
            "{\"to\":\"16:00\",\"from\":\"08:00\"}",
            "{\"from\":\"09:00\",\"to\":\"15:00\"}");
    assertTrue(text.yaml().contains("window: {from: \"09:00\", to: \"15:00\"}\n"), text.yaml());
  }

  @Test
  void missingKeyIsAdded() throws SetupException {
    assertTrue(changed("climate.heat", "null", "\"28 C\"").yaml().contains("3 C, heat: 28 C}"));
    String lines =
        changed("lines.white", "null", "{\"due\":0.4,\"refill\":0.0,\"dry\":0.7}").yaml();
    assertTrue(lines.contains("lines: {white: {due: 0.4, refill: 0.0, dry: 0.7}}"), lines);
    assertTrue(
        changed("watering.soak", "null", "\"20 min\"").yaml().contains("  soak: 20 min\n  window"));
    BenchText nested = changed("feeding.ceiling", "null", "0.4");
    assertTrue(nested.yaml().startsWith("feeding: {ceiling: 0.4}\nbench: sill"), nested.yaml());
    assertEquals(0.4, nested.read().feeding().ceiling());
  }

  @Test
  void keyIsTakenOut() throws SetupException {
    assertEquals(
        FILE.replace("  pass: 30 mL  # small cups", "  # small cups"),
        changed("watering.pass", "\"30 mL\"", "null").yaml());
    assertTrue(changed("climate.frost", "\"3 C\"", "null").yaml().contains("{cold: 12 C}"));
    assertTrue(changed("climate.cold", "\"12 C\"", "null").yaml().contains("{frost: 3 C}"));
  }

  @Test
  void numbersAreComparedAsNumbers() throws SetupException {
    assertEquals(
        FILE.replaceFirst("least_air: 0.10", "least_air: 0.12"),
        changed("mixes.peat.least_air", "0.1", "0.12").yaml());
  }

  @Test
  void whatStandsBehindLettersBeyondSixteenBitsIsFound() throws SetupException {
    BenchText seedling = new BenchText("sill.yaml", "\uFEFF# \uD83C\uDF31\n" + FILE);
    BenchText text = seedling.with(new BenchChange("watering.pass", "\"30 mL\"", "\"25 mL\""));
    assertEquals(seedling.yaml().replace("30 mL", "25 mL"), text.yaml());
  }

  @Test
  void whatNoLongerStandsIsRefused() {
    assertEquals(
        "watering.pass: from: it says \"30 mL\" now, not \"20 mL\"",
        refusal("watering.pass", "\"20 mL\"", "\"25 mL\""));
    assertEquals(
        "climate.heat: from: it says nothing now, not \"30 C\"",
        refusal("climate.heat", "\"30 C\"", "\"25 C\""));
    assertEquals(
        "watering.pass: to: it says so already",
        refusal("watering.pass", "\"30 mL\"", "\"30 mL\""));
  }

  @Test
  void benchThatCannotBeSoIsRefusedWithItsPlace() {
    String why = refusal("watering.pass", "\"30 mL\"", "\"3 kg\"");
    assertTrue(why.startsWith("sill.yaml:4:9 watering.pass: "), why);
    assertTrue(refusal("watering.puddle", "null", "1").contains("is not a key here"));
    assertTrue(refusal("mixes.peat", "{}", "null").contains("from: it says a group of keys"));
  }

  @ParameterizedTest
  @CsvSource({
    "bench, 'only, with the bench stopped'",
    "board.pump, 'only, with the bench stopped'",
    "drain, 'only, with the bench stopped'",
    "cups.A.1.scale, 'only, with the bench stopped'",
    "cups.A2.stage, an order stage",
    "cups.A2.mix, an order repot",
    "cups.A3, an order add",
    "cups, an order add",
    "tanks.feed.strength, an order filled",
    "tanks.feed.feed, an order filled",
    "'watering.pass: 1\nboard', expected keys joined by dots",
    "watering.pass.most, below a single value",
    "cups.A2, an order add",
  })
  void whatNoOrderChangesIsRefused(String path, String why) {
    assertTrue(refusal(path, "null", "1").contains(why), refusal(path, "null", "1"));
  }

  /** The cup's name has a dot, so that its path looks like that of a key of a cup. */
  @Test
  void whatOtherOrdersTellIsNotChangedByWayOfAWholeCup() throws SetupException {
    String whole =
        "{\"vessel\":\"pot\",\"mix\":\"peat\",\"plant\":\"currant\",\"stage\":\"white\","
            + "\"cutting\":\"10 g\"}";
    String toughened = refusal("cups.A.1", whole, whole.replace("white", "toughened"));
    assertEquals("cups.A.1: is changed in the bench file only, with the bench stopped", toughened);
    assertEquals(
        "fig",
        changed("cups.A.1", whole, whole.replace("currant", "fig"))
            .read()
            .cups()
            .get("A.1")
            .plant());
  }

  @Test
  void keysThatMayBeChangedAreToldInTheOrderOfTheFile() throws SetupException {
    List<BenchText.Key> keys = SILL.keys();
    assertEquals(new BenchText.Key("watering.window.from", "08:00"), keys.get(0));
    assertEquals(new BenchText.Key("watering.pass", "30 mL"), keys.get(2));
    List<String> paths = keys.stream().map(BenchText.Key::path).toList();
    assertTrue(paths.contains("cups.A.1.plant") && paths.contains("feeds.leafy.analysis.N"));
    assertFalse(paths.contains("bench"));
    assertFalse(paths.contains("cups.A2.stage"));
    assertFalse(paths.contains("tanks.feed.strength"));
  }

  @Test
  void groupOverSeveralLinesIsGivenAnewUnlessRemarksWouldBeLost() throws SetupException {
    String watering = "{\"window\":{\"from\":\"08:00\",\"to\":\"16:00\"},\"pass\":\"30 mL\"}";
    String pass = "{\"pass\":\"25 mL\"}";
    assertEquals(
        FILE.replaceFirst("(?s)window: .*30 mL", "{pass: 25 mL}"),
        changed("watering", watering, pass).yaml());
    BenchText remarked = new BenchText("sill.yaml", FILE.replace("16:00\"}", "16:00\"}  # day"));
    assertEquals(
        "watering: holds remarks that would be lost: name one key of it, or change the file",
        assertThrows(
                SetupException.class,
                () -> remarked.with(new BenchChange("watering", watering, pass)))
            .getMessage());
    BenchText planned =
        new BenchText(
            "sill.yaml",
            FILE.replace(
                "lines: {}",
                "feeding:\n  plan:\n    - {from: 2026-11-01, feed: leafy}\n  floor: 0  # none\nlines: {}"));
    String plan = "[{\"from\":\"2026-11-01\",\"feed\":\"leafy\"}]";
    BenchText later = planned.with(new BenchChange("feeding.plan", plan, plan.replace("11", "12")));
    assertEquals(
        planned
            .yaml()
            .replace("- {from: 2026-11-01, feed: leafy}", "[{from: 2026-12-01, feed: leafy}]"),
        later.yaml());
    assertEquals(
        planned.yaml().replace("  plan:\n    - {from: 2026-11-01, feed: leafy}\n", "\n"),
        planned.with(new BenchChange("feeding.plan", plan, "null")).yaml());
    assertEquals(
        FILE.replace("plant: vine", "plant: fig"),
        changed("cups.A2.plant", "\"vine\"", "\"fig\"").yaml());
  }
}
