package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.setup.Feed;
import java.time.Duration;
import org.junit.jupiter.api.Test;

class RecipeTest {
  private static final double US_GAL_ML = 3785.411784;
  private static final double OZ_G = 28.349523125;

  /** A teaspoon a gallon of a feed of 20 % N, a spoon of which weighs 6 g. */
  private static final Feed SPOON_A_GALLON = feed(20, 6 / US_GAL_ML * 1000);

  private static Feed feed(double nPct, double labelGPerL) {
    return new Feed("leafy", nPct, 10, 20, labelGPerL, Duration.ofDays(14), 6, 1.25);
  }

  @Test
  @Outside(source = "label arithmetic of soluble feeds (common practice): 1/4 tsp in 1/2 US gal")
  void halfStrengthInHalfAGallonIsAQuarterSpoon() {
    Recipe recipe = new Recipe(SPOON_A_GALLON, US_GAL_ML / 2, 0.5, 0);
    assertEquals(0.25, recipe.levelTeaspoons(), 1e-9);
    assertEquals(1.5, recipe.feedG(), 1e-9);
    assertTrue(recipe.spoonCanTell());
    assertFalse(new Recipe(SPOON_A_GALLON, 500, 0.5, 0).spoonCanTell());
  }

  @Test
  @Outside(source = "MSU, fertiliser calculations part 5: 100 mg/L N in 5 gal with 20 % is 0.33 oz")
  void hundredMilligramsOfNitrogenInFiveGallons() {
    Recipe recipe = new Recipe(feed(20, 0.5), 5 * US_GAL_ML, 1, 0);
    assertEquals(100, recipe.elementsMgPerL().nMg(), 1e-9);
    assertEquals(0.33, recipe.feedG() / OZ_G, 0.005);
  }

  @Test
  @Outside(source = "injector arithmetic, 1 in 100: 100 mg/L N of 20 % is 6.6763 oz/gal of stock")
  void stockIsAsMuchStrongerAsItIsThinned() {
    Recipe solution = new Recipe(feed(20, 0.5), 20_000, 1, 0.3);
    StockRatio ratio = new StockRatio(StockRatio.Reading.ONE_IN, 100);
    Recipe stock = solution.stock(ratio, ratio.stockMl(20_000));
    assertEquals(200, stock.volumeMl(), 1e-9);
    assertEquals(solution.feedG(), stock.feedG(), 1e-9);
    assertEquals(6.6763, stock.feedG() / stock.volumeMl() * US_GAL_ML / OZ_G, 1e-3);
    assertTrue(stock.concentrate() && !solution.concentrate());
  }

  @Test
  void conductivityOfTheWaterComesOnTop() {
    assertEquals(0.3 + 0.5 * 1.25, new Recipe(feed(20, 0.5), 1000, 1, 0.3).ecMsPerCm(), 1e-12);
    // A quarter of a gram in a litre: 0.25 x 1.25 = 0.3125 mS/cm.
    assertEquals(0.6125, new Recipe(feed(20, 0.5), 1000, 0.5, 0.3).ecMsPerCm(), 1e-12);
  }

  /** Of 1 g/L and 6 g a spoon, 750 mL take an eighth of a spoon: the least, our choice. */
  @Test
  void spoonTellsAnEighthAndNoLess() {
    assertTrue(new Recipe(feed(20, 1), 750, 1, 0).spoonCanTell());
    assertFalse(new Recipe(feed(20, 1), 749, 1, 0).spoonCanTell());
  }

  @Test
  void whatCannotBeMixedIsRefusedByName() {
    IllegalArgumentException none =
        assertThrows(IllegalArgumentException.class, () -> new Recipe(SPOON_A_GALLON, 0, 0.5, 0));
    assertTrue(none.getMessage().contains("volumeMl"), none.getMessage());
    assertThrows(
        IllegalArgumentException.class, () -> new Recipe(SPOON_A_GALLON, 1000, Double.NaN, 0));
  }
}
