package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.JavascriptException;

/**
 * Numbers that the page reckons itself, against values that it did not make; and its own weight.
 */
class NumbersTest {
  private static final int MOST_BYTES = 200 * 1024;
  private static Browser browser;
  private static StubHost host;

  @BeforeAll
  static void open() {
    browser = new Browser();
    host = StubHost.troubled();
    browser.size(Browser.WIDE).open(host.address());
  }

  @AfterAll
  static void close() {
    browser.close();
    host.close();
  }

  private static List<?> numbers(String script) {
    try {
      return (List<?>)
          browser.driver.executeAsyncScript(
              "const done = arguments[arguments.length - 1];(async () => {"
                  + script
                  + "})().then(done)");
    } catch (JavascriptException e) {
      throw new AssertionError(script, e);
    }
  }

  private static double at(List<?> values, int index) {
    return ((Number) values.get(index)).doubleValue();
  }

  /**
   * Reference: the same least squares by variable projection in 50 digits (mpmath), W = c + A
   * exp(-k t).
   */
  @Test
  void dryDownFitMeetsTheReferenceInFiftyDigits() {
    List<?> fit =
        numbers(
            "const {fitDryDown} = await import('/js/fit.js');"
                + "const f = fitDryDown([...Array(13).keys()].map(i => 8 * i), [420.3,387.6,360.0,335.4,315.1,296.8,281.1,268.0,255.5,245.8,237.1,229.0,222.5]);"
                + "return [f.c, f.A, f.k, f.rsd]");
    assertEquals(180.071053206, at(fit, 0), 180e-6);
    assertEquals(239.990203823, at(fit, 1), 240e-6);
    assertEquals(0.0180191142399, at(fit, 2), 1.8e-8);
    assertEquals(0.277416875923, at(fit, 3), 3e-7);
  }

  @Test
  void dryDownThatCannotBeFittedIsRefusedWithoutAnError() {
    List<?> shapes =
        numbers(
            "const {fitDryDown} = await import('/js/fit.js');"
                + "return [[[0,1],[9,8]], [[0,1,2,3,4],[5,5,5,5,5]], [[0,1,2,3,4],[5,6,7,8,9]], [[0,1,2,3,4],[5,NaN,3,2,1]], [[0,1,1,3,4],[5,4,3,2,1]]]"
                + ".map(([t, w]) => fitDryDown(t, w).shape)");
    assertEquals(List.of("refused", "refused", "refused", "refused", "refused"), shapes);
  }

  @Test
  void dryDownsAreCutAtWateringsAndAtAHandWatering() {
    List<?> spans =
        numbers(
            "const {dryDowns} = await import('/js/fit.js');"
                + "const at = [...Array(97).keys()].map(i => i * 3600);"
                + "const mass = at.map((s, i) => 400 - i + (i >= 24 ? 20 : 0) + (i >= 60 ? 30 : 0));"
                + "return dryDowns(at, mass, [23.9 * 3600, 24.2 * 3600]).flatMap(d => [d.from / 3600, d.to / 3600])");
    assertEquals(List.of(0L, 23L, 25L, 59L, 60L, 96L), spans);
  }

  /**
   * Wilson's interval for 8 of 10 at 95 %: 0.4902 to 0.9433 (computed by hand from the formula; the
   * same as textbooks print).
   */
  @Test
  void smallNumbersHaveWideIntervals() {
    List<?> interval =
        numbers("const {wilson} = await import('/js/season-view.js'); return wilson(8, 10)");
    assertEquals(0.4902, at(interval, 0), 1e-4);
    assertEquals(0.9433, at(interval, 1), 1e-4);
  }

  @Test
  void numbersOnTheCupEqualTheApi() {
    browser.open(host.address() + "#/attic/cup/A8");
    browser.awaitText("h1", "A8, pomegranate");
    CannedCup cup = host.cups.get("A8");
    browser.awaitText(".cup-facts", "%.1f g".formatted(cup.status.massG()));
    browser.awaitText(".cup-facts", "%.2f g/h".formatted(cup.status.rateGPerH()));
    browser.awaitText(".cup-facts", Math.round((1 - cup.status.depletion()) * 100) + " %");
  }

  @Test
  void typedTimesMeanTheZoneThatIsShownAlsoWhereSummerTimeBegins() {
    List<?> ms =
        numbers(
            "const u = await import('/js/units.js'); u.choose({zone: 'bench'}); u.useBenchZone('America/New_York');"
                + "const typed = u.typedMinute(Date.parse('2027-02-14T13:00:00Z'));"
                + "const back = ['2027-02-14T08:00', '2027-03-14T01:30', '2027-03-14T03:30'].map(u.msFromTyped);"
                + "u.choose({zone: 'device'});"
                + "return [typed === '2027-02-14T08:00' ? 1 : 0, ...back.map(ms => ms / 1000)]");
    assertEquals(1.0, at(ms, 0));
    assertEquals(Instant.parse("2027-02-14T13:00:00Z").getEpochSecond(), (long) at(ms, 1));
    assertEquals(Instant.parse("2027-03-14T06:30:00Z").getEpochSecond(), (long) at(ms, 2));
    assertEquals(Instant.parse("2027-03-14T07:30:00Z").getEpochSecond(), (long) at(ms, 3));
  }

  @Test
  void wholePageWeighsLessThanTwoHundredKilobytesCompressed() throws IOException {
    long bytes = PageWeight.bytes();
    assertTrue(bytes <= MOST_BYTES, bytes + " bytes");
  }
}
