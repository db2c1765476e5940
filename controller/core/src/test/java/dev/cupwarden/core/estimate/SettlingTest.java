package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A quiet cup whose scale showed 900 g once, read each five minutes: ten quiet minutes end the
 * doubt, and how the cup came back says what was.
 */
class SettlingTest {
  private final Cups cup = new Cups();
  private double massG;

  @BeforeEach
  void driesForTwelveHours() {
    massG = cup.dries(144, 320, 0.6);
  }

  private List<String> codesAfter(double... readings) {
    return Arrays.stream(readings)
        .mapToObj(
            reading -> {
              cup.reads(reading);
              return cup.code();
            })
        .toList();
  }

  @ParameterizedTest(name = "{0} mL ordered meanwhile, back with {1} g more: {2} of {3} g")
  @CsvSource({
    "0, 0, Leaned, 0",
    "0, 50, HandWatering, 50",
    "0, -50, Returned, -50",
    "30, 30, OwnDose, 30",
    "30, 0, Leaned, 0",
    "30, -50, Returned, -50"
  })
  void whatWasIsToldByHowItCameBack(double ml, double moreG, String event, double changeG) {
    cup.reads(900);
    cup.look(5, Double.NaN, ml, true);
    assertEquals(
        List.of("settling", "settling", "trusted"),
        codesAfter(massG + moreG, massG + moreG, massG + moreG));
    assertEquals(event, cup.told());
    assertEquals(massG + moreG, cup.estimate().massG(), 0.5);
    double toldG =
        switch (event) {
          case "OwnDose" -> cup.events(WeightEvent.OwnDose.class).get(0).gainG();
          case "HandWatering" -> cup.events(WeightEvent.HandWatering.class).get(0).gainG();
          case "Returned" -> cup.events(WeightEvent.Returned.class).get(0).changeG();
          default -> 0.0;
        };
    assertEquals(changeG, toldG, 0.5);
  }

  @Test
  void dripsThatFollowARiseNearCapacityAreWaitedFor() {
    cup.reads(900);
    codesAfter(400, 400, 400);
    assertTrue(cup.state.draining(), "filled by hand to its capacity");
    Cups same = new Cups();
    double heavyG = same.dries(144, 395, 0.6);
    same.reads(900);
    for (int i = 0; i < 3; i++) {
      same.reads(heavyG);
    }
    assertEquals(false, same.state.draining(), "nothing rose");
  }

  @Test
  void quietThatIsBrokenBeginsAnew() {
    cup.reads(900);
    assertEquals(
        List.of("settling", "settling", "settling", "trusted"),
        codesAfter(massG, massG + 20, massG + 20, massG + 20));
    assertEquals("HandWatering", cup.told());
  }

  @Test
  void passThatArrivesWhileItSettlesBreaksNoQuiet() {
    cup.reads(900);
    cup.reads(massG);
    cup.look(5, massG + 30, 30, true);
    assertEquals("settling", cup.code());
    cup.reads(massG + 30);
    assertEquals("trusted", cup.code());
    assertEquals("OwnDose", cup.told());
  }

  @Test
  void rateIsNotUnlearnedByAFault() {
    double before = cup.estimate().rateGPerH();
    cup.reads(900);
    codesAfter(massG, massG, massG);
    assertEquals(before, cup.estimate().rateGPerH(), 0.15);
  }
}
