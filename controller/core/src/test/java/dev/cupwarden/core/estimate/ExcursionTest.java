package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup of 300 g whose weight is not believed: ten quiet minutes end it; bounds are our choice. */
class ExcursionTest {
  private static final LoadFilter CUP =
      new LoadFilter(Cups.START, 300, 1, 0, 0.04, 0, 0, 0.1, 0, 0.0025);

  private static Excursion moved(LoadFilter before, int breaks) {
    return new Excursion(Fault.MOVED, before, 310, null, breaks, 0, 10, 2, 0);
  }

  @ParameterizedTest(name = "quiet for {0} s: {1}")
  @CsvSource({"0, false", "599, false", "600, true"})
  void quietForTenMinutes(long seconds, boolean enough) {
    Excursion quiet = moved(CUP, 0).quietFrom(Cups.START);
    assertEquals(enough, quiet.quietLongEnough(Cups.START.plusSeconds(seconds)));
    assertFalse(moved(CUP, 0).quietLongEnough(Cups.START.plusSeconds(seconds)), "never quiet");
  }

  @Test
  void quietThatIsBrokenThreeTimesIsNoHandButNoise() {
    Excursion twice = moved(CUP, 1).broken(Cups.START, 305, 4.5);
    assertEquals(Fault.MOVED, twice.fault());
    assertEquals(2, twice.breaks());
    assertEquals(10, twice.value());
    assertEquals(2, twice.threshold());
    assertEquals(Cups.START, twice.quietSince());
    Excursion thrice = twice.broken(Cups.START, 305, 4.5);
    assertEquals(Fault.NOISY, thrice.fault());
    assertEquals(4.5, thrice.value());
    assertEquals(Noise.TOO_GREAT_SD_G, thrice.threshold());
    Excursion lifted = new Excursion(Fault.LIFTED, CUP, 310, null, 5, 0, 10, 2, 0);
    assertEquals(Fault.LIFTED, lifted.broken(Cups.START, 305, 4.5).fault());
  }

  @Test
  void isHeldAgainstTheCupThatIsBack() {
    LoadFilter back = new LoadFilter(Cups.START, 340, 1, 0, 4, 0, 0, 0.1, 0, 0.0025);
    assertEquals(moved(back, 1), moved(CUP, 1).ofCup(back));
  }

  @Test
  void farthestReadingIsRemembered() {
    assertEquals(310, moved(CUP, 0).broken(Cups.START, 305, 1).peakG());
    assertEquals(310, moved(CUP, 0).broken(Cups.START, 290, 1).peakG(), "as far");
    assertEquals(289, moved(CUP, 0).broken(Cups.START, 289, 1).peakG());
    assertEquals(305, moved(null, 0).broken(Cups.START, 305, 1).peakG(), "of a cup never known");
  }

  @Test
  void whatIsOrderedMeanwhileIsSummed() {
    assertEquals(45, moved(CUP, 0).ordered(30).ordered(15).ownMl());
  }

  /** A hundredth of 600 g is 6 g. */
  @ParameterizedTest(name = "{0} g and then {1} g: {2}")
  @CsvSource({"600, 600, true", "594, 600, true", "606, 600, true", "593.9, 600, false"})
  void loadThatTheScaleHasBorneTwice(double lastG, double massG, boolean borne) {
    assertEquals(borne, moved(CUP, 0).newStranger(lastG, massG));
    assertFalse(moved(null, 0).newStranger(lastG, massG), "of a cup never known");
    assertFalse(moved(CUP, 0).withStranger(600).newStranger(lastG, massG), "told");
  }

  @ParameterizedTest(name = "600 g told, {0} g now: dried {1}")
  @CsvSource({"599, true", "599.1, false", "594, true", "593.9, false", "601, false"})
  void strangerThatDried(double massG, boolean dried) {
    assertTrue(moved(CUP, 0).withStranger(600).strangerTold());
    assertEquals(dried, moved(CUP, 0).withStranger(600).driedStranger(massG));
    assertFalse(moved(CUP, 0).driedStranger(massG));
  }
}
