package dev.cupwarden.core.units;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.RoundingMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.BigRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class QuantityTest {
  /**
   * Exact definitions; NIST Handbook 44, Appendix C (gallon of 231 cubic inches, inch of 2.54 cm).
   */
  @ParameterizedTest
  @CsvSource({
    "1 US gal, VOLUME, 3785.411784",
    "1 US fl oz, VOLUME, 29.5735295625",
    "1 tbsp, VOLUME, 14.78676478125",
    "1 tsp, VOLUME, 4.92892159375",
    "0.25 tsp, VOLUME, 1.2322303984375",
    "1 oz, MASS, 28.349523125",
    "1 in, LENGTH, 25.4",
    "4 L, VOLUME, 4000",
    "110 mm, LENGTH, 110",
    "110mm, LENGTH, 110",
    "12 min, TIME, 720",
    "14 d, TIME, 1209600",
    "1.25 mS/cm, CONDUCTIVITY, 1.25",
    "1.25 dS/m, CONDUCTIVITY, 1.25",
    "300 uS/cm, CONDUCTIVITY, 0.3",
    "-3.5 C, TEMPERATURE, -3.5",
    "1.5 mL/s, FLOW, 1.5"
  })
  void writtenQuantitiesAreExact(String text, Dimension dimension, BigDecimal base)
      throws QuantityException {
    Quantity read = Quantity.parse(text, dimension);
    assertEquals(0, base.compareTo(read.exactInBase()), read::toString);
    assertEquals(base.doubleValue(), read.inBase());
  }

  /** 68 F = 20 C and so on: the usual conversion, worked by hand to three places. */
  @ParameterizedTest
  @CsvSource({
    "68, 20.000",
    "77, 25.000",
    "65, 18.333",
    "75, 23.889",
    "45, 7.222",
    "32, 0.000",
    "-40, -40.000"
  })
  void fahrenheitBecomesCelsius(String f, BigDecimal c) throws QuantityException {
    BigDecimal read = Quantity.parse(f + " F", Dimension.TEMPERATURE).exactInBase();
    assertEquals(c, read.setScale(3, RoundingMode.HALF_EVEN));
  }

  @Test
  void spoonsOuncesAndGallonsAgreeExactly() throws QuantityException {
    BigDecimal gallon = Quantity.parse("1 US gal", Dimension.VOLUME).exactInBase();
    for (String same : new String[] {"768 tsp", "256 tbsp", "128 US fl oz"}) {
      assertEquals(0, gallon.compareTo(Quantity.parse(same, Dimension.VOLUME).exactInBase()), same);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "30",
        "mL",
        "NaN mL",
        "Infinity mL",
        "1e3 mL",
        "30  mL",
        " 30 mL",
        "30 mL ",
        "3 0 mL",
        "30,5 mL",
        "1/4 tsp",
        "0x10 mL",
        "30 ml",
        "30 fl oz",
        "30 gal",
        "30 g",
        "30 mL/s",
        "١ mL",
        "--3 mL",
        "1.2.3 mL",
        ".5 L",
        "99999999999999 L",
        "30 mL\n",
        "30\tmL"
      })
  void anythingElseIsRefusedInOneSentence(String text) {
    String sentence =
        assertThrows(QuantityException.class, () -> Quantity.parse(text, Dimension.VOLUME))
            .getMessage();
    assertTrue(sentence.contains("expected"), sentence);
    assertTrue(sentence.contains("mL, L, US fl oz, US gal, tsp, tbsp"), sentence);
    assertTrue(sentence.lines().count() == 1, sentence);
  }

  @ParameterizedTest
  @CsvSource({
    "30, ML, 30 mL",
    "29.5735295625, US_FL_OZ, 1 US fl oz",
    "4000, L, 4 L",
    "12345.6, ML, 12346 mL",
    "0.00012344, L, 0.0000001234 L",
    "20, F, 68 F",
    "720, MIN, 12 min",
    "0, G, 0 g",
    "1400, ML, 1400 mL"
  })
  void shownInTheGrowersUnit(double base, Unit unit, String shown) {
    assertEquals(shown, Quantity.show(base, unit));
  }

  @Property
  void whatIsShownIsReadBack(
      @ForAll @BigRange(min = "0.01", max = "9999") @Scale(2) BigDecimal number, @ForAll Unit unit)
      throws QuantityException {
    Quantity written =
        Quantity.parse(number.toPlainString() + " " + unit.symbol(), unit.dimension());
    Quantity again = Quantity.parse(Quantity.show(written.inBase(), unit), unit.dimension());
    assertEquals(number.doubleValue(), again.number().doubleValue(), number.doubleValue() * 6e-4);
  }

  @ParameterizedTest
  @EnumSource(Dimension.class)
  void theBaseUnitHasTheFactorOne(Dimension dimension) throws QuantityException {
    assertEquals(1.0, Quantity.parse("1 " + dimension.base().symbol(), dimension).inBase());
  }

  @Test
  void quotedTextIsShortAndSafe() {
    assertEquals("\"a?b?\"", Quoted.text("a\nb\u202E"));
    assertEquals(43, Quoted.text("x".repeat(1000)).length());
  }
}
