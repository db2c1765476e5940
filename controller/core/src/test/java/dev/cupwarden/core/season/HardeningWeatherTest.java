package dev.cupwarden.core.season;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Below 45 °F and in wind tender plants stay in; the heat line of the bench is 30 °C here. */
class HardeningWeatherTest {
  private static final LocalDate TODAY = LocalDate.of(2027, 4, 2);

  private static String cause(OptionalDouble nowC, Optional<DayForetold> told) {
    return HardeningWeather.against(nowC, told, 30.0)
        .map(against -> against.cause().name())
        .orElse("");
  }

  @ParameterizedTest(name = "{0} to {1}, wind {2}: {3}")
  @CsvSource({
    "7.2, 20, LIGHT, COLD",
    "7.3, 20, LIGHT, ''",
    "7.3, 20, , ''",
    "7.3, 20, STRONG, WIND",
    "7.2, 20, STRONG, COLD",
    "7.3, 30, LIGHT, ''",
    "7.3, 30.1, LIGHT, HOT",
  })
  void aPersonsWordSpeaksOfTheDay(
      double leastC, double mostC, DayForetold.Wind wind, String cause) {
    DayForetold told = new DayForetold(TODAY, leastC, mostC, wind);
    assertEquals(cause, cause(OptionalDouble.empty(), Optional.of(told)));
  }

  @ParameterizedTest
  @CsvSource({"7.2, COLD_NOW", "7.3, ''", "45, ''"})
  void theThermometerSpeaksOfColdNow(double nowC, String cause) {
    assertEquals(cause, cause(OptionalDouble.of(nowC), Optional.empty()));
  }

  @Test
  void figuresAreThoseOfTheCause() {
    DayForetold hot = new DayForetold(TODAY, 12.0, 33.0, null);
    assertEquals(
        List.of(33.0, 30.0),
        HardeningWeather.byWord(hot, 30.0).stream()
            .flatMap(against -> List.of(against.valueC(), against.boundC()).stream())
            .toList());
    assertEquals("", cause(OptionalDouble.empty(), Optional.empty()));
  }

  @Test
  void aDayThatIsOverSaysNothing() {
    Foretold told =
        Foretold.NONE
            .plus(new DayForetold(TODAY.plusDays(1), 8.0, 12.0, null))
            .plus(new DayForetold(TODAY, 1.0, 9.0, null));
    assertEquals(1.0, told.from(TODAY).of(TODAY).orElseThrow().leastC());
    assertEquals(Optional.empty(), told.from(TODAY.plusDays(1)).of(TODAY));
    assertEquals(1, told.from(TODAY.plusDays(1)).days().size());
  }
}
