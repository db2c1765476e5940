package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Within 2 % of an eighth it is about that; 0.51 / 0.5 is 1.02. */
class TeaspoonsTest {
  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({
    "0.5, about 1/2 level teaspoon",
    "0.5099, about 1/2 level teaspoon",
    "0.5101, a little over 1/2 level teaspoon",
    "0.4901, about 1/2 level teaspoon",
    "0.4899, a little under 1/2 level teaspoon",
    "0.97, a little under 1 level teaspoon",
    "1.01, about 1 level teaspoon",
    "1.125, about 1 1/8 level teaspoons",
    "2.26, about 2 1/4 level teaspoons",
    "0.05, a little under 1/8 level teaspoon"
  })
  void nearestEighthInWords(double teaspoons, String words) {
    assertEquals(words, Teaspoons.words(teaspoons));
  }
}
