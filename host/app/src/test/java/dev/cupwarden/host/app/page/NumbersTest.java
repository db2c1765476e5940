package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
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

  @BeforeEach
  void nothingToldOfDryDowns() {
    host.dryDowns.clear();
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

  /** The host's answer as it stands: what the core makes of dry-downs is tested there. */
  @Test
  void dryDownsAreShownAsTheHostCutFittedAndComparedThem() {
    host.dryDowns.put(
        "A8",
        """
          {"dry_downs": [{"from": "2027-02-10T20:00:00Z", "to": "2027-02-12T20:00:00Z",
            "start_seen": false, "hours": [0, 24, 48], "mass_g": [400, 375, 355], "lost_g": 45,
            "loss_g_h_kpa": 1.0417,
            "fit": {"asymptote_g": 275, "amplitude_g": 125, "rate_per_h": 0.0093, "rsd_g": 0.31,
              "half_life_h": null}}],
           "change": {"verdict": "less", "factor": 0.607, "low": 0.484, "high": 0.761, "each": 3}}
          """);
    browser.open(host.address() + "#/attic/dry-downs/A8");
    browser.awaitText(
        ".says", "A8 drinks 0.61 times as much as before in air like this (0.48–0.76)");
    browser.awaitText("table", "1.04 g/h");
    browser.awaitText("table", "beginning cut off");
    browser.awaitText("table", "not yet to be told");
  }

  @Test
  void fewDryDownsMakeNoVerdict() {
    host.dryDowns.put("A8", "{\"dry_downs\": [], \"change\": null}");
    host.dryDowns.put(
        "A7",
        """
          {"dry_downs": [{"from": "2027-02-10T20:00:00Z", "to": "2027-02-11T08:00:00Z",
            "start_seen": true, "hours": [0, 12], "mass_g": [400, 390], "lost_g": 10,
            "loss_g_h_kpa": null, "fit": null}], "change": null}
          """);
    browser.open(host.address() + "#/attic/dry-downs/A7,A8");
    browser.awaitText(".says", "A7: whether it drinks more or less than before is told after six");
    browser.awaitText("[role=status]", "A8");
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
