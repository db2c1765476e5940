package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Dimension;

/**
 * Every view, wide and narrow, light and dark: no violation of axe's rules, nothing wider than the
 * screen, no console error, and a picture in target/screenshots for a person to look at.
 */
class EveryViewTest {
  private static final Map<String, String> VIEWS =
      new TreeMap<>(
          Map.ofEntries(
              Map.entry("bench", ""),
              Map.entry("cup", "attic/cup/A3"),
              Map.entry("drydowns", "attic/dry-downs/A7,A8"),
              Map.entry("doing", "attic/do"),
              Map.entry("dose", "attic/do/dose/A8"),
              Map.entry("hold", "attic/do/hold"),
              Map.entry("cover", "attic/do/cover/A8"),
              Map.entry("change", "attic/do/change"),
              Map.entry("weather", "attic/do/weather"),
              Map.entry("retire", "attic/do/retire/A8"),
              Map.entry("tanks", "attic/tanks"),
              Map.entry("days", "attic/days"),
              Map.entry("alerts", "attic/alerts"),
              Map.entry("season", "attic/season"),
              Map.entry("cautions", "cautions"),
              Map.entry("units", "units")));
  @AutoClose private static final Browser browser = new Browser();

  @Test
  void troubledBenchIsAccessibleOnEveryView() {
    try (StubHost host = StubHost.troubled()) {
      VIEWS.forEach((name, hash) -> lookAt(name, host.address() + "#/" + hash));
    }
  }

  @Test
  void emptyStoreSaysWhatToDoNext() {
    try (StubHost host = StubHost.empty()) {
      lookAt("first-run", host.address());
      browser.awaitText("h1", "No bench yet");
      browser.awaitText("pre", "vessels:");
      browser.awaitText(".panel", "extra-low-voltage");
    }
  }

  @Test
  void twoHundredCupsAreAccessibleToo() {
    try (StubHost host = StubHost.withCups(200)) {
      browser.size(Browser.NARROW).scheme("dark").open(host.address());
      browser.awaitText("h1", "All 200 cups are well.");
      browser.assertAccessible("bench-200");
      browser.screenshot("bench-200-narrow-dark");
      browser.scheme("light");
      browser.size(new Dimension(3840, 2160)).open(host.address());
      browser.awaitText("h1", "All 200 cups are well.");
      browser.screenshot("bench-200-4k");
    }
  }

  /** Opened once; scheme and width then change under it, as on a device that is turned at dusk. */
  private static void lookAt(String name, String address) {
    browser.size(Browser.WIDE).scheme("light").open(address);
    browser.await(
        name + " has settled",
        () ->
            Boolean.TRUE.equals(
                browser.run(
                    "const h = document.querySelector('main h1');"
                        + "return !!h && h.innerText !== 'Connecting…' && !document.body.innerText.includes('Reading the weights')")));
    for (String scheme : List.of("light", "dark")) {
      for (boolean wide : new boolean[] {true, false}) {
        String picture = name + (wide ? "-wide-" : "-narrow-") + scheme;
        browser.size(wide ? Browser.WIDE : Browser.NARROW).scheme(scheme);
        browser.await(
            picture + " fits its screen",
            () ->
                Boolean.TRUE.equals(
                    browser.run("return document.documentElement.scrollWidth <= innerWidth")));
        browser.assertAccessible(picture);
        browser.screenshot(picture);
      }
    }
    assertEquals(List.of(), browser.consoleErrors(), "console of " + name);
  }
}
