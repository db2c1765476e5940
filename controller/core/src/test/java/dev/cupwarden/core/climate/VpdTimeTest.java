package dev.cupwarden.core.climate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.core.checks.OpenData;
import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.climate.VpdTime.DeficitAt;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class VpdTimeTest {
  private static final Instant START = Instant.parse("2027-02-14T08:00:00Z");
  private static final Duration HOUR = Duration.ofHours(1);

  @Test
  @Outside(source = "loss / (hours x VPD by FAO-56 equation 11), computed apart")
  void lossPerVpdTime() {
    double deficitKpa = VapourPressure.deficitKpa(20, 60);
    VpdTime time = VpdTime.NONE;
    for (int minute = 0; minute <= 360; minute += 5) {
      time = time.plus(at(minute, deficitKpa), HOUR);
    }
    assertEquals(0.42767, 2.4 / time.kPaH(), 1e-4);
  }

  @Test
  @Outside(source = "open data weather-jfk-2013 (CC0): a year of hourly weather")
  void aYearOfWeather() {
    List<double[]> hours =
        OpenData.rows("weather-jfk-2013/jfk_2013_hourly.csv").stream()
            .map(
                row ->
                    new double[] {
                      celsius(row.get(1)), celsius(row.get(2)), Double.parseDouble(row.get(3))
                    })
            .toList();
    assertEquals(8706, hours.size());
    assertEquals(12.4845, hours.stream().mapToDouble(h -> h[0]).average().orElseThrow(), 0.001);
    assertEquals(-11.1, hours.stream().mapToDouble(h -> h[0]).min().orElseThrow(), 0.05);
    assertEquals(36.7, hours.stream().mapToDouble(h -> h[0]).max().orElseThrow(), 0.05);
    assertEquals(65.205, hours.stream().mapToDouble(h -> h[2]).average().orElseThrow(), 0.001);
    double[] deficits =
        hours.stream().mapToDouble(h -> VapourPressure.deficitKpa(h[0], h[2])).toArray();
    assertEquals(0.56716, Arrays.stream(deficits).average().orElseThrow(), 0.0005);
    assertEquals(3.926, Arrays.stream(deficits).max().orElseThrow(), 0.001);
    double[] off =
        hours.stream()
            .mapToDouble(
                h ->
                    100 * VapourPressure.saturationKpa(h[1]) / VapourPressure.saturationKpa(h[0])
                        - h[2])
            .map(Math::abs)
            .sorted()
            .toArray();
    assertEquals(0.039, off[off.length / 2], 0.001, "humidity by the dew point");
  }

  @Test
  @Outside(source = "open data weather-jfk-2013 (CC0): 14 gaps, 24 hours missing")
  void aGapAddsNothingAndIsTold() {
    VpdTime year = VpdTime.NONE;
    int gaps = 0;
    for (List<String> row : OpenData.rows("weather-jfk-2013/jfk_2013_hourly.csv")) {
      double deficitKpa =
          VapourPressure.deficitKpa(celsius(row.get(1)), Double.parseDouble(row.get(3)));
      Duration before = year.missed();
      year = year.plus(new DeficitAt(Instant.parse(row.get(0)), deficitKpa), HOUR);
      gaps += year.missed().equals(before) ? 0 : 1;
    }
    assertEquals(14, gaps);
    // Each gap of n missing hours lies between readings n + 1 hours apart.
    assertEquals(Duration.ofHours(24 + 14), year.missed());
    assertEquals(0.56716, year.kPaH() / (8706 - 1 - 14), 0.001);
  }

  private static double celsius(String fahrenheit) {
    return (Double.parseDouble(fahrenheit) - 32) / 1.8;
  }

  /** 1.5 kPa on the mean for an hour. */
  @Test
  void betweenTwoReadingsTheirMeanCounts() {
    VpdTime time = VpdTime.NONE.plus(at(0, 1), HOUR).plus(at(60, 2), HOUR);
    assertEquals(1.5, time.kPaH(), 1e-12, "an hour is no gap");
    assertEquals(Duration.ZERO, time.missed());
    assertEquals(time, time.plus(at(60, 2), HOUR), "the same reading again");
    VpdTime gap = time.plus(at(121, 2), HOUR);
    assertEquals(1.5, gap.kPaH(), 1e-12);
    assertEquals(Duration.ofMinutes(61), gap.missed());
    assertEquals(3.5, gap.plus(at(181, 2), HOUR).kPaH(), 1e-12);
  }

  @Test
  void aReadingOfThePastOrOfNoSenseIsRefused() {
    VpdTime time = VpdTime.NONE.plus(at(10, 1), HOUR);
    assertThrows(IllegalArgumentException.class, () -> time.plus(at(5, 1), HOUR));
    assertThrows(IllegalArgumentException.class, () -> at(0, Double.NaN));
  }

  private static DeficitAt at(int minute, double deficitKpa) {
    return new DeficitAt(START.plus(Duration.ofMinutes(minute)), deficitKpa);
  }
}
