package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.substrate.DryDownSegments.Break;
import dev.cupwarden.core.substrate.DryDownSegments.Kind;
import dev.cupwarden.core.substrate.DryDownSegments.Segment;
import dev.cupwarden.core.substrate.DryDownSegments.Weighing;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class DryDownSegmentsTest {
  private static final Instant START = Instant.parse("2027-02-14T08:00:00Z");
  private static final Duration NO_TIME = Duration.ZERO;
  private static final Duration HALF_A_DAY = Duration.ofHours(12);

  @Test
  void anUndisturbedCupIsOneDryDown() {
    List<Segment> segments = DryDownSegments.cut(hourly(0, 48), List.of(), NO_TIME, HALF_A_DAY);
    assertEquals(1, segments.size());
    assertEquals(new DryDownPoint(48, 352), segments.get(0).points().get(48));
  }

  @ParameterizedTest
  @EnumSource(
      value = Kind.class,
      names = {"LIFTED"},
      mode = EnumSource.Mode.EXCLUDE)
  void everyDisturbanceCutsAndTimeBeginsAnew(Kind kind) {
    List<Segment> segments =
        DryDownSegments.cut(hourly(0, 48), List.of(at(20.5, kind)), NO_TIME, HALF_A_DAY);
    assertEquals(2, segments.size());
    assertEquals(21, segments.get(0).points().size());
    assertEquals(new DryDownPoint(0, 379), segments.get(1).points().get(0));
  }

  @Test
  void whileACupIsLiftedNothingCounts() {
    List<Break> away = List.of(at(10.5, Kind.LIFTED), at(12, Kind.DOSE), at(20.5, Kind.RETURNED));
    List<Segment> segments = DryDownSegments.cut(hourly(0, 48), away, NO_TIME, HALF_A_DAY);
    assertEquals(2, segments.size());
    assertEquals(11, segments.get(0).points().size());
    assertEquals(379, segments.get(1).points().get(0).grossG());
  }

  @Test
  void waterSettlesBeforeTheNextDryDownBegins() {
    List<Segment> segments =
        DryDownSegments.cut(
            hourly(0, 48), List.of(at(20.5, Kind.DOSE)), Duration.ofHours(2), HALF_A_DAY);
    assertEquals(377, segments.get(1).points().get(0).grossG());
  }

  @Test
  void aLongGapCutsAndALoneWeighingIsNoDryDown() {
    List<Weighing> weighings = new ArrayList<>(hourly(40, 48));
    weighings.addAll(hourly(0, 10));
    weighings.add(new Weighing(START.plus(Duration.ofHours(25)), 375));
    List<Segment> segments = DryDownSegments.cut(weighings, List.of(), NO_TIME, HALF_A_DAY);
    assertEquals(2, segments.size());
    assertEquals(11, segments.get(0).points().size());
    assertEquals(9, segments.get(1).points().size());
  }

  @Test
  void gapIsWhatIsLongerThanTheLongest() {
    List<Weighing> weighings = new ArrayList<>(hourly(0, 10));
    weighings.addAll(hourly(22, 30));
    assertEquals(
        1, DryDownSegments.cut(weighings, List.of(), NO_TIME, HALF_A_DAY).size(), "12 h are none");
    Duration less = HALF_A_DAY.minusSeconds(1);
    assertEquals(2, DryDownSegments.cut(weighings, List.of(), NO_TIME, less).size());
  }

  /** A weighing at the minute of a dose comes after it; one that has settled just then counts. */
  @Test
  void weighingAtTheBreakItself() {
    Break dose = at(20, Kind.DOSE);
    List<Segment> cut =
        DryDownSegments.cut(hourly(0, 48), List.of(dose), Duration.ofHours(2), HALF_A_DAY);
    assertEquals(20, cut.get(0).points().size());
    assertEquals(Optional.empty(), cut.get(0).after());
    assertEquals(378, cut.get(1).points().get(0).grossG());
    assertEquals(Optional.of(dose), cut.get(1).after());
  }

  @Test
  void twoWeighingsAreADryDownAndOneIsNone() {
    assertEquals(1, DryDownSegments.cut(hourly(0, 1), List.of(), NO_TIME, HALF_A_DAY).size());
    assertEquals(0, DryDownSegments.cut(hourly(0, 0), List.of(), NO_TIME, HALF_A_DAY).size());
  }

  @Test
  void aFitNeverSeesTheJumpOfADose() {
    List<Weighing> weighings = new ArrayList<>();
    for (int hour = 0; hour <= 200; hour++) {
      int since = hour < 100 ? hour : hour - 100;
      double grossG = 180 + 240 * Math.exp(-0.018 * since);
      weighings.add(new Weighing(START.plus(Duration.ofHours(hour)), grossG));
    }
    List<Segment> segments =
        DryDownSegments.cut(weighings, List.of(at(99.5, Kind.DOSE)), NO_TIME, HALF_A_DAY);
    assertEquals(2, segments.size());
    for (Segment segment : segments) {
      assertTrue(
          ExponentialFit.fit(segment.points()) instanceof DryDownFit.Identified fit
              && Math.abs(fit.curve().asymptoteG() - 180) < 1e-4);
    }
  }

  private static Break at(double hour, Kind kind) {
    return new Break(START.plus(Duration.ofMinutes((long) (60 * hour))), kind);
  }

  private static List<Weighing> hourly(int from, int to) {
    List<Weighing> weighings = new ArrayList<>();
    for (int hour = from; hour <= to; hour++) {
      weighings.add(new Weighing(START.plus(Duration.ofHours(hour)), 400 - hour));
    }
    return weighings;
  }
}
