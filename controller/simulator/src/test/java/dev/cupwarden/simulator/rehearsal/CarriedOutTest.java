package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.season.Outings;
import dev.cupwarden.core.setup.SetupException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A spring of cups that go out by day, of which nobody tells the controller. */
class CarriedOutTest {
  /** So near to its true weight a cup is taken within an hour of its return. */
  private static final double WITHIN_G = 2;

  private static List<CarriedOut.Told> ofCarried(CarriedOut.Spring spring, int from, int to) {
    Instant begins = midnight(spring, from);
    Instant ends = midnight(spring, to);
    return spring.told().stream()
        .filter(told -> !told.at().isBefore(begins) && told.at().isBefore(ends))
        .filter(told -> carried().anyMatch(told::of))
        .filter(told -> !told.notice().again())
        .toList();
  }

  private static Instant midnight(CarriedOut.Spring spring, int dayOut) {
    LocalDate day = CarriedOut.FIRST_DAY_OUT.plusDays(dayOut);
    return day.atStartOfDay(spring.zone()).toInstant();
  }

  private static Stream<String> carried() {
    return IntStream.range(0, CarriedOut.CARRIED).mapToObj("C%03d"::formatted);
  }

  private static void asTheyWeigh(CarriedOut.Spring spring) {
    double lightest = 0;
    double heaviest = 0;
    for (CarriedOut.Back back : spring.backs()) {
      lightest = Math.min(lightest, back.gainedG());
      heaviest = Math.max(heaviest, back.gainedG());
      assertEquals(0, back.beyondG(), WITHIN_G, back::toString);
      assertTrue(back.trusted(), back::toString);
    }
    assertTrue(lightest < -5, () -> "the sun dried none: " + spring.backs());
    assertTrue(heaviest > 20, () -> "rain fell into none: " + spring.backs());
  }

  @ParameterizedTest
  @CsvSource({"FIRST, 1", "FIRST, 2", "SECOND, 1", "SECOND, 2"})
  void threeLikeDaysAreToldAndFromTheFourthOnOnlyTheForgottenCup(World world, long seed)
      throws SetupException {
    CarriedOut.Spring spring = new CarriedOut(world, seed).run();
    for (int day = 0; day < Outings.LIKE_DAYS; day++) {
      List<CarriedOut.Told> told = ofCarried(spring, day, day + 1);
      assertTrue(
          told.stream().anyMatch(each -> each.notice().code().equals("cup-away")),
          "nobody was told of day " + day + ": " + told);
    }
    List<CarriedOut.Told> learned = ofCarried(spring, Outings.LIKE_DAYS, CarriedOut.DAYS_OUT);
    assertEquals(1, learned.size(), learned::toString);
    CarriedOut.Told forgotten = learned.get(0);
    assertEquals("cup-away", forgotten.notice().code());
    assertEquals("C001", forgotten.notice().cup());
    ZonedDateTime toldAt = forgotten.at().atZone(spring.zone());
    assertEquals(CarriedOut.FIRST_DAY_OUT.plusDays(CarriedOut.FORGOTTEN_ON), toldAt.toLocalDate());
    assertTrue(
        toldAt.toLocalTime().isBefore(LocalTime.of(21, 0)), () -> "before the night: " + forgotten);
    assertEquals(0, spring.spilledMl(), "nothing is poured where no cup stands");
    asTheyWeigh(spring);
  }
}
