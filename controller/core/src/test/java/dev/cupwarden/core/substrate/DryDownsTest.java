package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.substrate.DryDownSegments.Weighing;
import dev.cupwarden.core.substrate.DryDowns.Air;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DryDownsTest {
  private static final Instant MIDNIGHT = Instant.parse("2027-02-14T00:00:00Z");
  private static final double START_G = 400;

  /** Loss in the light for each kPa of drying power; the leaves let through a third by night. */
  private static final double DAY_G_PER_H_KPA = 1.5;

  private static final double NIGHT_PART = 1 / 3.0;

  /** A room that is drier by day: 1.2 kPa from 08:00 to 20:00, else 0.6. */
  private static double vpdKpa(int hour) {
    return light(hour) ? 1.2 : 0.6;
  }

  private static boolean light(int hour) {
    return hour % 24 >= 8 && hour % 24 < 20;
  }

  private static double lossGPerH(int hour) {
    double power = 0.1 + vpdKpa(hour);
    return DAY_G_PER_H_KPA * power * (light(hour) ? 1 : NIGHT_PART);
  }

  /** Read each quarter of an hour; watered back to its start at each of these hours. */
  private static List<Weighing> weighed(int hours, List<Integer> wateredAt) {
    List<Weighing> weighings = new ArrayList<>();
    double grossG = START_G - 60;
    for (int quarter = 0; quarter < hours * 4; quarter++) {
      if (quarter % 4 == 0 && wateredAt.contains(quarter / 4)) {
        grossG = START_G;
      }
      weighings.add(new Weighing(MIDNIGHT.plus(Duration.ofMinutes(15L * quarter)), grossG));
      grossG -= lossGPerH(quarter / 4) / 4;
    }
    return weighings;
  }

  private static List<Air> air(int hours) {
    return IntStream.range(0, hours * 4)
        .mapToObj(i -> new Air(MIDNIGHT.plus(Duration.ofMinutes(15L * i)), vpdKpa(i / 4)))
        .toList();
  }

  private static List<Instant> doses(List<Integer> hours) {
    return hours.stream().map(hour -> MIDNIGHT.plus(Duration.ofHours(hour))).toList();
  }

  /**
   * By hand: 12 h of 1.5 · 1.3 and 12 h of 0.5 · 0.7 g/h make 27.6 g a day, 1.15 g/h, in air of 1.0
   * kPa on the mean.
   */
  @Test
  void oneCupTellsOneFigureWhateverTheHourOfItsStart() {
    List<Integer> wateredAt = List.of(2, 2 + 54, 56 + 58, 114 + 46, 160 + 60);
    List<DryDown> found = DryDowns.of(weighed(270, wateredAt), doses(wateredAt), air(270));
    assertEquals(5, found.size());
    for (DryDown each : found) {
      assertTrue(each.startSeen(), each.from().toString());
      assertEquals(1.15, each.loss().orElseThrow().gPerHPerKpa(), 0.02 * 1.15);
    }
    assertEquals(
        List.of(2, 2, 1, 2, 2),
        found.stream().map(each -> each.loss().orElseThrow().days()).toList());
  }

  @Test
  void beginningThatWasCutOffIsNoStart() {
    List<Integer> wateredAt = List.of(50);
    List<DryDown> found = DryDowns.of(weighed(100, wateredAt), doses(wateredAt), air(100));
    assertEquals(2, found.size());
    assertFalse(found.get(0).startSeen(), "the first weighing of all is no watering");
    assertTrue(found.get(1).startSeen());
    List<Weighing> gap = new ArrayList<>(weighed(100, wateredAt));
    gap.removeIf(
        each ->
            each.at().isAfter(MIDNIGHT.plus(Duration.ofHours(49)))
                && each.at().isBefore(MIDNIGHT.plus(Duration.ofHours(60))));
    assertFalse(DryDowns.of(gap, doses(wateredAt), air(100)).get(1).startSeen(), "ten hours late");
  }

  @Test
  void canOfAPersonIsAStartAndACupPutBackIsNot() {
    List<DryDown> byCan = DryDowns.of(weighed(100, List.of(50)), List.of(), air(100));
    assertEquals(List.of(false, true), byCan.stream().map(DryDown::startSeen).toList());
    List<Weighing> lifted = new ArrayList<>(weighed(100, List.of()));
    for (int quarter = 200; quarter < 204; quarter++) {
      lifted.set(quarter, new Weighing(lifted.get(quarter).at(), 0.2));
    }
    List<DryDown> back = DryDowns.of(lifted, List.of(), air(100));
    assertEquals(List.of(false, false), back.stream().map(DryDown::startSeen).toList());
  }

  @Test
  void withoutADayOrWithoutAirThereIsNothingToCompare() {
    List<Integer> wateredAt = List.of(2, 22);
    List<DryDown> found = DryDowns.of(weighed(60, wateredAt), doses(wateredAt), air(60));
    assertEquals(Optional.empty(), found.get(0).loss(), "twenty hours are no day");
    assertTrue(found.get(1).loss().isPresent());
    assertTrue(
        DryDowns.of(weighed(60, wateredAt), doses(wateredAt), List.of()).stream()
            .allMatch(each -> each.loss().isEmpty()));
    assertTrue(
        DryDowns.of(weighed(60, wateredAt), doses(wateredAt), air(30)).stream()
            .allMatch(each -> each.loss().isEmpty()),
        "air of a third of the day");
  }

  /** From 400 g down by 1 g an hour, read each hour. */
  private static List<Weighing> hourly(int hours) {
    return IntStream.rangeClosed(0, hours)
        .mapToObj(hour -> new Weighing(MIDNIGHT.plus(Duration.ofHours(hour)), 400.0 - hour))
        .toList();
  }

  @Test
  void figuresOfADryDown() {
    DryDown day = DryDowns.of(hourly(30), List.of(), air(30)).get(0);
    assertEquals(30.0, day.hours());
    assertEquals(MIDNIGHT.plus(Duration.ofHours(30)), day.to());
    assertEquals(30.0, day.lostG());
    assertEquals(1.0, day.rateGPerH());
    assertEquals(Optional.empty(), day.halfLifeH(), "a straight line has none");
    // 12 h of 1.3 kPa and 12 of 0.7: 1 g/h in 1.0 kPa.
    assertEquals(1, day.loss().orElseThrow().days());
    assertEquals(1.0, day.loss().orElseThrow().gPerHPerKpa(), 1e-9);
  }

  @Test
  void halfLifeOfACupThatSlowsDown() {
    List<Weighing> weighings = new ArrayList<>();
    for (int hour = 0; hour <= 60; hour++) {
      double grossG = 180 + 220 * Math.exp(-Math.log(2) * hour / 15);
      weighings.add(new Weighing(MIDNIGHT.plus(Duration.ofHours(hour)), grossG));
    }
    DryDown found = DryDowns.of(weighings, List.of(), List.of()).get(0);
    assertEquals(15.0, found.halfLifeH().orElseThrow(), 1e-3);
  }

  @Test
  void shorterThanSixHoursIsNone() {
    assertEquals(1, DryDowns.of(hourly(6), List.of(), List.of()).size());
    assertEquals(0, DryDowns.of(hourly(5), List.of(), List.of()).size());
  }

  @Test
  void wholeDaysAreCompared() {
    assertEquals(Optional.empty(), DryDowns.of(hourly(23), List.of(), air(60)).get(0).loss());
    assertEquals(1, DryDowns.of(hourly(24), List.of(), air(60)).get(0).loss().get().days());
    assertEquals(1, DryDowns.of(hourly(47), List.of(), air(60)).get(0).loss().get().days());
    assertEquals(2, DryDowns.of(hourly(48), List.of(), air(60)).get(0).loss().get().days());
  }

  /** Its water settles for half an hour; an hour after its dose is late enough. */
  @ParameterizedTest(name = "first weighed {0} min after its dose: a start {1}")
  @CsvSource({"30, true", "60, true", "61, false"})
  void startIsSeenWithinAnHour(int minutes, boolean seen) {
    List<Instant> dose = List.of(MIDNIGHT.minus(Duration.ofMinutes(minutes)));
    assertEquals(seen, DryDowns.of(hourly(8), dose, List.of()).get(0).startSeen());
  }

  /** A rise of more than 3 g is a can; a fall of more than 15 % is no drying. */
  @ParameterizedTest(name = "{0} g at once: {1} dry-downs")
  @CsvSource({"3.0, 1", "3.1, 2", "-60.0, 1", "-60.1, 2"})
  void jumpsThatCut(double jumpG, int dryDowns) {
    List<Weighing> weighings = new ArrayList<>();
    for (int hour = 0; hour <= 20; hour++) {
      double grossG = hour < 10 ? 400 : 400 + jumpG;
      weighings.add(new Weighing(MIDNIGHT.plus(Duration.ofHours(hour)), grossG));
    }
    assertEquals(dryDowns, DryDowns.of(weighings, List.of(), List.of()).size());
  }

  /** Nine tenths of a day must be in known air: between readings at most an hour apart. */
  @Test
  void airMustBeKnownForNineTenths() {
    List<Air> some = new ArrayList<>();
    for (int hour = 0; hour < 23; hour++) {
      some.add(new Air(MIDNIGHT.plus(Duration.ofHours(hour)), 0.9));
    }
    // 22 of 24 h, in 1.0 kPa.
    assertEquals(
        1.0, DryDowns.of(hourly(24), List.of(), some).get(0).loss().get().gPerHPerKpa(), 1e-9);
    some.remove(22);
    assertEquals(Optional.empty(), DryDowns.of(hourly(24), List.of(), some).get(0).loss());
  }

  /** Nine tenths of 24 h are 21.6 h: 36 times 36 minutes. */
  @Test
  void airOfJustNineTenthsIsKnown() {
    List<Air> some = new ArrayList<>();
    for (int reading = 0; reading <= 36; reading++) {
      some.add(new Air(MIDNIGHT.plus(Duration.ofMinutes(36L * reading)), 0.9));
    }
    assertEquals(
        1.0, DryDowns.of(hourly(24), List.of(), some).get(0).loss().get().gPerHPerKpa(), 1e-9);
  }

  /** Air not read for two of 24 h: the mean is of the other 22. Three are too many. */
  @Test
  void gapInTheAirIsNotReckonedAsAirOfNoPower() {
    List<Air> some = new ArrayList<>();
    for (int hour = 0; hour <= 24; hour++) {
      some.add(new Air(MIDNIGHT.plus(Duration.ofHours(hour)), 0.9));
    }
    some.remove(11);
    assertEquals(
        1.0, DryDowns.of(hourly(24), List.of(), some).get(0).loss().get().gPerHPerKpa(), 1e-9);
    some.remove(11);
    assertEquals(Optional.empty(), DryDowns.of(hourly(24), List.of(), some).get(0).loss());
  }

  /** Weighed each five hours: the mass after a day lies between two weighings. In 0.5 kPa. */
  @Test
  void massAfterWholeDaysLiesBetweenWeighings() {
    List<Weighing> weighings = new ArrayList<>();
    List<Air> moist = new ArrayList<>();
    for (int hour = 0; hour <= 30; hour++) {
      if (hour % 5 == 0) {
        weighings.add(new Weighing(MIDNIGHT.plus(Duration.ofHours(hour)), 400.0 - hour));
      }
      moist.add(new Air(MIDNIGHT.plus(Duration.ofHours(hour)), 0.4));
    }
    DryDown found = DryDowns.of(weighings, List.of(), moist).get(0);
    assertEquals(2.0, found.loss().orElseThrow().gPerHPerKpa(), 1e-9);
  }

  private static List<DryDown> of(double... losses) {
    return DoubleStream.of(losses)
        .mapToObj(
            loss ->
                new DryDown(
                    MIDNIGHT,
                    true,
                    List.of(new DryDownPoint(0, 400), new DryDownPoint(24, 380)),
                    new DryDownFit.Refused(Refusal.TOO_FEW),
                    Optional.of(new DryDown.Loss(1, loss))))
        .toList();
  }

  @Test
  void verdictNeedsThreeOnEachSide() {
    assertEquals(Optional.empty(), LossComparison.of(of(1, 1.1, 2, 2.1, 2.2)));
    assertEquals(3, LossComparison.of(of(1, 1.1, 0.9, 2, 2.1, 2.2)).orElseThrow().each());
    DryDown cutOff = of(2).get(0);
    List<DryDown> five = new ArrayList<>(of(1, 1.1, 0.9, 2, 2.1));
    five.add(new DryDown(cutOff.from(), false, cutOff.points(), cutOff.fit(), cutOff.loss()));
    assertEquals(Optional.empty(), LossComparison.of(five), "a cut-off start counts for nothing");
  }

  /** A factor of 1.25 or more, of 0.75 or less, of cups that vary by nothing. */
  @Test
  void factorThatIsWorthALook() {
    assertEquals(
        LossComparison.Verdict.MORE,
        LossComparison.of(of(1, 1, 1, 1.251, 1.251, 1.251)).orElseThrow().verdict());
    assertEquals(
        LossComparison.Verdict.ALIKE,
        LossComparison.of(of(1, 1, 1, 1.249, 1.249, 1.249)).orElseThrow().verdict());
    assertEquals(
        LossComparison.Verdict.LESS,
        LossComparison.of(of(1, 1, 1, 0.749, 0.749, 0.749)).orElseThrow().verdict());
    assertEquals(
        LossComparison.Verdict.ALIKE,
        LossComparison.of(of(1, 1, 1, 0.751, 0.751, 0.751)).orElseThrow().verdict());
  }

  @Test
  void dryDownThatLostNothingIsLeftOut() {
    LossComparison found = LossComparison.of(of(0, -1, 1, 1, 1, 2, 2, 2)).orElseThrow();
    assertEquals(3, found.each());
    assertEquals(2.0, found.factor(), 1e-9);
  }

  /**
   * By hand: logarithms −0.1, 0, 0.1 and 0.4, 0.5, 0.6; each side's variance 0.01, so the standard
   * error is √(2 · 0.01 / 3) = 0.0816497, with 4 degrees of freedom and t = 2.776445: 0.5 ±
   * 0.226696.
   */
  @Test
  @Outside(source = "t of 4 degrees of freedom at 97.5 %: 2.776, as tables print")
  void factorComesWithItsInterval() {
    LossComparison more =
        LossComparison.of(
                of(Math.exp(-0.1), 1, Math.exp(0.1), Math.exp(0.4), Math.exp(0.5), Math.exp(0.6)))
            .orElseThrow();
    assertEquals(LossComparison.Verdict.MORE, more.verdict());
    assertEquals(1.6487, more.factor(), 1e-4);
    assertEquals(1.3143, more.low(), 1e-3);
    assertEquals(2.0683, more.high(), 1e-3);
    LossComparison less =
        LossComparison.of(
                of(Math.exp(0.6), Math.exp(0.5), Math.exp(0.4), Math.exp(0.1), 1, Math.exp(-0.1)))
            .orElseThrow();
    assertEquals(LossComparison.Verdict.LESS, less.verdict());
  }

  @Test
  void aWideIntervalOrASmallFactorIsNoVerdict() {
    assertEquals(
        LossComparison.Verdict.ALIKE,
        LossComparison.of(of(0.5, 1, 2, 1, 2, 4)).orElseThrow().verdict(),
        "twice, but who knows");
    assertEquals(
        LossComparison.Verdict.ALIKE,
        LossComparison.of(of(1, 1.001, 1.002, 1.1, 1.101, 1.102)).orElseThrow().verdict(),
        "sure, but a tenth");
  }
}
