package dev.cupwarden.host.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class CurveTest {
  private static Curve curve(double... values) {
    Curve.Builder builder = new Curve.Builder();
    IntStream.range(0, values.length).forEach(index -> builder.add(index * 60_000L, values[index]));
    return builder.build();
  }

  private static DoubleStream values(Curve curve) {
    return IntStream.range(0, curve.size()).mapToDouble(curve::value);
  }

  @Property(tries = 200)
  void thinningKeepsTheExtremesAndTheOrder(
      @ForAll @Size(min = 1, max = 500) double[] values,
      @ForAll @IntRange(min = 2, max = 60) int most) {
    Curve whole = curve(values);
    Curve thinned = whole.thinned(most);
    assertTrue(thinned.size() <= Math.max(most, 2));
    assertEquals(values(whole).min(), values(thinned).min());
    assertEquals(values(whole).max(), values(thinned).max());
    for (int index = 1; index < thinned.size(); index++) {
      assertTrue(thinned.atMs(index) > thinned.atMs(index - 1));
    }
  }

  @Test
  void aDoseOfOneReadingIsSeenInASeason() {
    double[] season = new double[200_000];
    season[123_456] = 30;
    Curve thinned = curve(season).thinned(2_000);
    assertTrue(thinned.size() <= 2_000);
    assertEquals(30, values(thinned).max().orElseThrow());
  }
}
