package dev.cupwarden.host.app.page;

import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.Test;

/** What a bench runs without is seen by whoever looks at it, and before a setting is changed. */
class SafetyOnThePageTest {
  private static final String WAIVED = "Runs without leak: the bench stands in a shower tray.";
  @AutoClose private static final Browser browser = new Browser();

  @Test
  void whatTheGrowerWaivedStandsAtTheHeadOfTheBench() {
    try (StubHost host = StubHost.troubled()) {
      browser.size(Browser.WIDE).scheme("light").open(host.address() + "#/attic");
      browser.awaitText("main", WAIVED);
      browser.open(host.address() + "#/attic/do/change");
      browser.awaitText(".says", WAIVED);
    }
  }
}
