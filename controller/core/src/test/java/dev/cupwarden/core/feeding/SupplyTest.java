package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What two tanks give for a pass. Strengths mix by volume: of 30 mL at s, 30 s / 0.5 come from a
 * feed tank of half the label, cut down to whole tenths.
 */
class SupplyTest {
  private static final double EXACT = 1e-9;

  private static Supply both(double plainMl, double feedMl) {
    return new Supply("plain", plainMl, "feed", "leafy", feedMl, 0.5);
  }

  private static Supply feedAlone(double feedMl, double strength) {
    return new Supply(null, 0.0, "feed", "leafy", feedMl, strength);
  }

  private static Supply plainAlone(double plainMl) {
    return new Supply("plain", plainMl, null, null, 0.0, 0.0);
  }

  private static void assertDraw(double plainMl, double feedMl, double strength, TankDraw draw) {
    assertEquals(plainMl, draw.plainMl(), EXACT, "plain");
    assertEquals(feedMl, draw.feedMl(), EXACT, "feed");
    assertEquals(strength, draw.strength(), EXACT, "strength");
  }

  @ParameterizedTest(name = "{0} mL, wanted {1}, at most {2}: {3} + {4} at {5}")
  @CsvSource({
    "30, 0.25, 1.0, 15, 15, 0.25",
    "30, 0.5, 0.25, 15, 15, 0.25",
    "30, 0.1, 0.5, 24, 6, 0.1",
    // 30 x 0.13 / 0.5 = 7.8.
    "30, 0.13, 0.5, 22.2, 7.8, 0.13",
    // 30 x 0.111 / 0.5 = 6.66, cut down to 6.6: 6.6 x 0.5 / 30 = 0.11.
    "30, 0.111, 0.5, 23.4, 6.6, 0.11",
    // No stronger than what is in the tank.
    "30, 0.8, 1.0, 0, 30, 0.5",
    // 0.06 mL are less than a tenth.
    "30, 0.001, 0.5, 30, 0, 0",
    "30, 0.25, 0.0, 30, 0, 0",
    "30, 0.0, 0.5, 30, 0, 0",
    "30.07, 0.5, 0.5, 0, 30, 0.5"
  })
  void blendOfBothTanks(
      double ml, double wanted, double most, double plainMl, double feedMl, double strength) {
    assertDraw(plainMl, feedMl, strength, both(1_000, 1_000).draw(ml, wanted, most));
  }

  @ParameterizedTest(
      name = "{0} mL of plain and {1} mL of feed left, at most {2}: {3} + {4} at {5}")
  @CsvSource({
    "30, 15, 1.0, 15, 15, 0.25",
    // Feed that no longer suffices is left out; water is not held for it.
    "30, 14.9, 1.0, 30, 0, 0",
    // Plain water that no longer suffices: feed as it is, where the cup may have that.
    "29.9, 30, 0.5, 0, 30, 0.5",
    "29.9, 30, 0.49, 0, 0, 0",
    "29.9, 29.9, 0.5, 0, 0, 0"
  })
  void tanksThatRunLow(
      double plainLeftMl,
      double feedLeftMl,
      double most,
      double plainMl,
      double feedMl,
      double strength) {
    assertDraw(plainMl, feedMl, strength, both(plainLeftMl, feedLeftMl).draw(30.0, 0.25, most));
  }

  @Test
  void oneTankAlone() {
    assertDraw(30, 0, 0, plainAlone(30).draw(30.0, 0.25, 0.5));
    assertDraw(0, 0, 0, plainAlone(29.9).draw(30.0, 0.25, 0.5));
    assertDraw(0, 30, 0.25, feedAlone(30, 0.25).draw(30.0, 0.1, 0.25));
    assertDraw(0, 0, 0, feedAlone(30, 0.25).draw(30.0, 0.1, 0.24));
  }

  @ParameterizedTest(name = "feed of {0} where {1} may be had: {2} mL")
  @CsvSource({"0.25, 0.25, 40", "0.25, 0.26, 40", "0.25, 0.24, 0"})
  void undilutedFeed(double strength, double most, double ml) {
    assertEquals(ml, feedAlone(40, strength).undilutedMl(most));
    assertEquals(0.0, plainAlone(40).undilutedMl(most), "there is none");
  }

  /** Passes of 30 mL, of which 5 mL are worth a valve. */
  @ParameterizedTest(name = "{0} mL of plain water left: {1} + {2} at {3}")
  @CsvSource({"40, 15, 15, 0.25", "12, 6, 6, 0.25", "5, 2.5, 2.5, 0.25", "4.9, 0, 0, 0"})
  void lastOfThePlainTank(double leftMl, double plainMl, double feedMl, double strength) {
    assertDraw(plainMl, feedMl, strength, both(leftMl, 1_000).drawLast(5.0, 30.0, 0.25, 0.5));
  }

  @Test
  void lastOfAFeedTankThatStandsAlone() {
    assertDraw(0, 12, 0.25, feedAlone(12, 0.25).drawLast(5.0, 30.0, 0.1, 0.25));
    assertDraw(0, 0, 0, feedAlone(12, 0.25).drawLast(5.0, 30.0, 0.1, 0.24));
  }
}
