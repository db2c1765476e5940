package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A cup that loses 1 g/h and kPa in the dark and 3 at half brightness (80 µmol/m²/s), in air of 1
 * kPa: d = 1 and l = 4.
 */
class LightUseTest {
  private static final double FADES_H = 60;

  private static LightUse learned() {
    LightUse use = LightUse.NONE.under(0).add(8, 8, 1).under(80);
    // The eight dark hours fade meanwhile; the ratio of loss and squares stays.
    return use.add(24, 8, 1);
  }

  @ParameterizedTest(name = "{0} µmol: {1}")
  @CsvSource({
    "0, 0",
    "80, 0.5",
    "240, 0.75",
    "5000, 0.984251969",
    "5001, 0.5",
    "-1, 0.5",
    "NaN, 0.5"
  })
  void brightness(double light, double brightness) {
    assertEquals(brightness, LightUse.NONE.under(80).under(light).brightness(), 1e-9);
  }

  @Test
  void sumsFadeInSixtyHours() {
    LightUse use = LightUse.NONE.under(80).add(24, 8, 2).add(0, FADES_H, 1);
    // Drive² x hours: 32; brightness 0.5.
    double e = 1 / Math.E;
    assertEquals(32 * e + 60, use.dark(), 1e-9);
    assertEquals(16 * e + 30, use.both(), 1e-9);
    assertEquals(8 * e + 15, use.lit(), 1e-9);
    assertEquals(48 * e, use.lostDark(), 1e-9);
    assertEquals(24 * e, use.lostLit(), 1e-9);
  }

  @Test
  void nothingIsLearnedInUnknownLightOrInNoTime() {
    assertSame(LightUse.NONE, LightUse.NONE.add(8, 8, 1));
    LightUse dark = LightUse.NONE.under(0);
    assertSame(dark, dark.add(8, 0, 1));
    assertEquals(dark.add(8, 8, 1), dark.add(8, 8, Double.NaN), "air that is not known counts 1");
    assertEquals(dark.add(8, 8, 1), dark.add(8, 8, 0), "nor does air that dries nothing");
    LightUse same = dark.under(0);
    assertSame(dark, same);
  }

  /** (1 + 4 x 0.75) / (1 + 4 x 0.5) = 4 / 3; into the dark 1 / 3. */
  @ParameterizedTest(name = "from 80 to {0} µmol: {1} times")
  @CsvSource({"240, 1.333333333", "0, 0.333333333", "80, 1"})
  void rateChangesWithTheLight(double light, double times) {
    LightUse before = learned();
    assertEquals(times, before.under(light).against(before), 1e-6);
  }

  @Test
  void withoutDarkOrLightSeenNothingChanges() {
    LightUse lit = LightUse.NONE.under(80).add(24, 8, 1);
    assertEquals(1, lit.under(0).against(lit));
    LightUse dark = LightUse.NONE.under(0).add(8, 8, 1);
    assertEquals(1, dark.under(80).against(dark));
    assertEquals(1, learned().against(LightUse.NONE));
    // All of it at half brightness, 4 x 1 - 2² = 0, whatever its sums of loss have come to.
    LightUse even = new LightUse(4, 2, 1, 4, 2.5, 0.5);
    assertEquals(1, even.under(0).against(even), "one light alone tells nothing apart");
  }

  /**
   * One kPa²·h of each at least: draws = (2.4 x 2 - 4 x 1) / (2 x 0.9 - 1) = 1, rests = (4 - 1) / 2
   * = 1.5; from half brightness into the dark 1.5 / 2.
   */
  @Test
  void oneOfEachIsEnough() {
    LightUse just = new LightUse(2, 1, 0.9, 4, 2.4, 0.5);
    assertEquals(0.75, just.under(0).against(just), 1e-9);
    LightUse lessDark = new LightUse(1.99, 1, 0.9, 4, 2.4, 0.5);
    assertEquals(1.0, lessDark.under(0).against(lessDark));
    LightUse lessLight = new LightUse(2, 0.99, 0.9, 4, 2.4, 0.5);
    assertEquals(1.0, lessLight.under(0).against(lessLight));
  }

  /** Where the dark loses nothing it is taken to lose a twentieth of what leaves draw. */
  @Test
  void useRisesByTwentyTimesAtMost() {
    LightUse use = new LightUse(10, 4, 3, 8, 6, 0);
    // draws = (6 x 10 - 8 x 4) / (10 x 3 - 4²) = 2, rests = max(2 / 20, (8 - 2 x 4) / 10) = 0.1.
    assertEquals((0.1 + 2 * 0.5) / 0.1, use.under(80).against(use), 1e-9);
    LightUse none = new LightUse(10, 4, 3, 0, 0, 0);
    assertEquals(1.0, none.under(80).against(none), "a cup that loses nothing");
  }
}
