package dev.cupwarden.host.app.page;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;

/** Units, clock and dates by the reader's choice, kept on the reader's device. */
class ChoiceTest {
  @AutoClose
  private static final Browser browser = new Browser().size(Browser.WIDE).scheme("light");

  private final StubHost host = StubHost.withCups(6);

  @AfterEach
  void forget() {
    browser.run("localStorage.clear()");
    host.close();
  }

  /** From the usual choice of a set of radio buttons so many further. */
  private static void choose(String usual, int further) {
    browser.tabTo("input[value=" + usual + "]");
    for (int i = 0; i < further; i++) {
      browser.press(Keys.ARROW_DOWN);
    }
  }

  @Test
  void ouncesFahrenheitAndIsoDatesAreShownOnEveryViewFromThenOn() {
    browser.open(host.address() + "#/units");
    browser.awaitText("h1", "Units and dates");
    choose("ml", 1);
    choose("g", 1);
    choose("c", 1);
    choose("locale", 1);
    choose("locale", 3);
    browser.awaitText("#said", "Units changed.");
    browser.open(host.address());
    browser.awaitText("h1", "All 6 cups are well.");
    // 20.6 °C, 7.4 L by exactly 1.8 °F and 3.785411784 L.
    browser.awaitText(".facts", "air 69.1 °F");
    browser.awaitText(".facts", "plain 1.95 gal");
    browser.awaitText("#age", "2027-02-14 08:05");
    browser.run("location.hash = '#/attic/tanks'");
    browser.awaitText("section[data-tank=plain]", "6.1 fl oz a day");
    browser.awaitText("section[data-tank=plain]", "until 2027-03-27");
    browser.awaitText("label", "Water in US gallons");
    // What keeps, 560 mL, is 0.14 US gallons: at half of 1.532 g/L 0.406 g, that is 0.014 oz.
    browser.awaitText("p[role=status]", "0.01 oz (0.41 g) of feed");
  }
}
