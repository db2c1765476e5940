package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FertiliserArithmeticTest {
  private static final double OUNCE_G = 28.349523125;
  private static final double GALLON_L = 3.785411784;
  private static final double TEASPOON_ML = 4.92892159375;

  private static double strengthForN(LabelRate label, double nMgPerL) {
    return nMgPerL / label.elementsMg(1, 1000).nMg();
  }

  @Test
  @Outside(source = "IUPAC standard atomic weights (CIAAW), P2O5 and K2O")
  void oxidesOfTheBagAreNotElements() {
    assertEquals(0.4364268, Analysis.P_IN_P2O5, 1e-6);
    assertEquals(0.8301513, Analysis.K_IN_K2O, 1e-6);
    assertEquals(2.2913349, 1 / Analysis.P_IN_P2O5, 1e-6);
    assertEquals(1.2045997, 1 / Analysis.K_IN_K2O, 1e-6);
  }

  @ParameterizedTest(name = "{0} g/L of {1}-{2}-{3}")
  @CsvSource(
      textBlock =
          """
          0.5, 20, 10, 20, 100, 21.8213,  83.0151
          0.5, 20, 20, 20, 100, 43.6427,  83.0151
          1.0, 15,  5, 15, 150, 21.8213, 124.5227
          """)
  @Outside(source = "mg/L = 10 x % x g/L with IUPAC atomic weights, computed apart")
  void elementsOfASolution(
      double gPerL, double n, double p2o5, double k2o, double nMg, double pMg, double kMg) {
    Nutrients perL = new Analysis(n, p2o5, k2o).elementsMg(gPerL);
    assertEquals(nMg, perL.nMg(), 1e-3);
    assertEquals(pMg, perL.pMg(), 1e-3);
    assertEquals(kMg, perL.kMg(), 1e-3);
  }

  @ParameterizedTest(name = "{0} oz of {1} % N in {2} gal: about {3} ppm ({5})")
  @CsvSource(
      textBlock =
          """
          13.5, 20, 100, 200,   202.2070961, UMass fertilizer calculations
          18,   15, 100, 200,   202.2070961, UMass fertilizer calculations
          1,    15, 100, 11.25, 11.23372756, TAMU hortipm nutrient calculations
          """)
  @Outside(source = "university extension worked cases in ounces per 100 gallons")
  void ouncesPerHundredGallons(
      double ounces, double nPct, double gallons, double printed, double exact, String source) {
    double gPerL = LabelRate.gPerL(ounces * OUNCE_G, gallons * GALLON_L * 1000);
    double ppm = new Analysis(nPct, 0, 0).elementsMg(gPerL).nMg();
    assertEquals(printed, ppm, 0.012 * printed, source);
    assertEquals(exact, ppm, 1e-6 * exact);
  }

  @ParameterizedTest(name = "{0} ppm from {1} % N in {2} gal: about {3} oz ({5})")
  @CsvSource(
      textBlock =
          """
          250, 15, 100, 22,   22.25441187, TAMU hortipm nutrient calculations
          100, 20, 5,   0.33, 0.3338161781, Michigan State University
          """)
  @Outside(source = "university extension worked cases from ppm to ounces")
  void ouncesForAConcentration(
      double ppm, double nPct, double gallons, double printed, double exact, String source) {
    LabelRate label = new LabelRate(new Analysis(nPct, 0, 0), 1);
    double grams = label.feedG(strengthForN(label, ppm), gallons * GALLON_L * 1000);
    assertEquals(printed, grams / OUNCE_G, 0.012 * printed, source);
    assertEquals(exact, grams / OUNCE_G, 1e-6 * exact);
  }

  @Test
  @Outside(source = "Michigan State University: 100 ppm in 5 gallons from 20 % N is about 9 g")
  void aBucketOfFeedInGrams() {
    LabelRate label = new LabelRate(new Analysis(20, 20, 20), 1);
    double grams = label.feedG(strengthForN(label, 100), 5 * GALLON_L * 1000);
    assertEquals(9, grams, 0.06 * 9);
    assertEquals(9.46352946, grams, 1e-8 * 9.46352946 + 5e-9);
  }

  @Test
  @Outside(source = "TAMU hortipm nutrient calculations, whose print of .33 x 75 is wrong")
  void aMisprintedCaseIsNotFollowed() {
    double ounces = 200 / (75 * 0.33);
    assertEquals(8.08, ounces, 0.005);
    double gPerL = LabelRate.gPerL(ounces * OUNCE_G, 100 * GALLON_L * 1000);
    assertEquals(200, new Analysis(33, 0, 0).elementsMg(gPerL).nMg(), 0.002 * 200);
  }

  @ParameterizedTest(name = "{0} ppm of {1} % at 1 in {2}")
  @CsvSource({"100, 20, 100, 6.6763", "200, 20, 128, 17.0914"})
  @Outside(source = "stock = target x ratio, ounces per US gallon, computed apart")
  void stockForAnInjector(double ppm, double nPct, double parts, double ouncesPerGallon) {
    LabelRate label = new LabelRate(new Analysis(nPct, 0, 0), 1);
    StockRatio ratio = new StockRatio(StockRatio.Reading.ONE_IN, parts);
    double stockGPerL = strengthForN(label, ppm) * label.gPerL() * ratio.solutionPerStock();
    assertEquals(ouncesPerGallon, stockGPerL * GALLON_L / OUNCE_G, 1e-4);
  }

  @Test
  void theTwoReadingsOfARatioLieOnePerCentApart() {
    StockRatio in = new StockRatio(StockRatio.Reading.ONE_IN, 100);
    StockRatio to = new StockRatio(StockRatio.Reading.ONE_TO, 100);
    assertEquals(0.3, in.stockMl(30), 1e-12);
    assertEquals(30 / 101.0, to.stockMl(30), 1e-12);
  }

  @Test
  @Outside(source = "common practice: one teaspoon per US gallon, half a teaspoon for half of it")
  void aLabelInSpoons() {
    double spoonG = 5.8;
    LabelRate label =
        new LabelRate(new Analysis(20, 10, 20), LabelRate.gPerL(spoonG, GALLON_L * 1000));
    assertEquals(1, label.spoons(1, GALLON_L * 1000, spoonG), 1e-12);
    assertEquals(0.5, label.spoons(1, GALLON_L * 500, spoonG), 1e-12);
    assertEquals(0.25, label.spoons(0.5, GALLON_L * 500, spoonG), 1e-12);
    assertEquals(3, label.spoons(3, GALLON_L * 1000, spoonG), 1e-12, "outdoors: one tablespoon");
    assertEquals(768, GALLON_L * 1000 / TEASPOON_ML, 1e-9);
  }

  @Property
  void aBlendGivesBackItsStrength(
      @ForAll @DoubleRange(min = 1, max = 1000) double totalMl,
      @ForAll @DoubleRange(min = 0, max = 1) double plain,
      @ForAll @DoubleRange(min = 1.1, max = 20) double feed,
      @ForAll @DoubleRange(min = 0, max = 1) double part) {
    double wanted = Math.min(feed, plain + part * (feed - plain));
    Blend blend = Blend.of(totalMl, wanted, plain, feed);
    assertEquals(totalMl, blend.totalMl(), 1e-12 * totalMl);
    assertEquals(wanted, blend.strength(plain, feed), 1e-11);
  }

  @Property
  void nutrientsAddUp(
      @ForAll @DoubleRange(min = 0, max = 100) double oneG,
      @ForAll @DoubleRange(min = 0, max = 100) double otherG) {
    Analysis bag = new Analysis(20, 10, 20);
    Nutrients apart = bag.elementsMg(oneG).plus(bag.elementsMg(otherG));
    Nutrients together = bag.elementsMg(oneG + otherG);
    assertEquals(together.pMg(), apart.pMg(), 1e-8);
    assertEquals(together.kMg(), apart.kMg(), 1e-8);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "nPct, -1, 0, 0",
    "p2o5Pct, 0, 101, 0",
    "k2oPct, 0, 0, NaN",
    "nPct + p2o5Pct + k2oPct, 50, 50, 50"
  })
  void aBagThatCannotBeIsRefused(String argument, double n, double p2o5, double k2o) {
    String said =
        assertThrows(IllegalArgumentException.class, () -> new Analysis(n, p2o5, k2o)).getMessage();
    assertTrue(said.startsWith(argument + " must be "), said);
  }

  @Test
  void whatATankCannotGiveIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> Blend.of(30, 0.6, 0, 0.5));
    assertThrows(IllegalArgumentException.class, () -> Blend.of(30, 0.2, 0.5, 0.5));
    assertThrows(IllegalArgumentException.class, () -> Blend.of(Double.NaN, 0.2, 0, 0.5));
    assertThrows(IllegalArgumentException.class, () -> new Blend(0, 0).strength(0, 1));
    assertThrows(
        IllegalArgumentException.class, () -> new StockRatio(StockRatio.Reading.ONE_IN, 0.5));
    assertThrows(IllegalArgumentException.class, () -> new LabelRate(new Analysis(0, 20, 20), 0));
  }
}
