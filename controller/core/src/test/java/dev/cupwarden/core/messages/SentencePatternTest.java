package dev.cupwarden.core.messages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Locale;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A sentence says what the library's own formatter makes of the same pattern. */
class SentencePatternTest {
  @Property
  void numbersAreRoundedAsTheLibraryRoundsThem(
      @ForAll @DoubleRange(min = 0, max = 1e7) double value,
      @ForAll @IntRange(max = 3) int places) {
    String pattern = "about %1$." + places + "f mL, %1$." + places + "f";
    assertEquals(
        String.format(Locale.ROOT, pattern, value), SentencePattern.of(pattern).with(value));
    // A half is where rounding shows; below nothing only where something is left of it.
    double half = Math.floor(value) / 2 + 0.005;
    for (double each : new double[] {half, -1 - half}) {
      assertEquals(
          String.format(Locale.ROOT, pattern, each), SentencePattern.of(pattern).with(each));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "no place at all",
        "%2$s before %1$s",
        "100 %% of %3$d",
        "%1$s%2$s",
        "%1$s",
        "ends %2$s."
      })
  void placesAreFilledAsTheLibraryFillsThem(String pattern) {
    Object[] values = {"one", "two", 3, "left over"};
    assertEquals(
        String.format(Locale.ROOT, pattern, values), SentencePattern.of(pattern).with(values));
  }

  @Test
  void nothingIsNeverLessThanNothing() {
    assertEquals("0.0 °C", SentencePattern.of("%1$.1f °C").with(-0.04));
    assertEquals("NaN", SentencePattern.of("%1$.1f").with(Double.NaN));
  }

  @ParameterizedTest
  @ValueSource(strings = {"50 % of it", "%s", "%1$x", "%1$5.1f", "%"})
  void otherNotationIsRefused(String pattern) {
    assertThrows(IllegalArgumentException.class, () -> SentencePattern.of(pattern));
  }

  @Test
  void valueThatIsMissingIsRefused() {
    SentencePattern pattern = SentencePattern.of("%2$s");
    assertThrows(IllegalArgumentException.class, () -> pattern.with("one"));
  }
}
