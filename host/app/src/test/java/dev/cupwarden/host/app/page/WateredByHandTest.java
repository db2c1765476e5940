package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupActivity;
import java.util.List;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;

/** A bench, or a cup, that no pump waters: nothing of a pump is offered, and a person's can is. */
class WateredByHandTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;

  private static StubHost thirsty(boolean watched) {
    StubHost bench = StubHost.withCups(8);
    bench.watched = watched;
    bench.cups.get("A8").hasValve = watched;
    bench.alerts.add(
        new AlertNotice("near-dry", "A8", "raised", bench.now, 0.83, 0.8, "Water it by hand."));
    return bench;
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void benchThatIsOnlyWatchedOffersNoWaterOfAPump(Dimension screen) {
    page.open(screen, thirsty(true), "attic/cup/A8");
    browser.awaitText(".doing > .row", "Watered by hand");
    assertFalse(browser.textsOf(".doing > .row a").contains("Water now"));
    browser.tap(".doing summary");
    browser.awaitText(
        ".doing .not-now", "This bench is only watched: no pump runs. Water it by hand.");
    browser.run("location.hash = '#/attic/do'");
    browser.awaitText("details summary", "Not for this bench now");
    assertEquals(List.of(), browser.textsOf("section > .actions a[href$='/do/dose']"));
    browser.tap("details summary");
    browser.awaitText("details .actions a[href$='/do/dose']", "This bench is only watched");
    browser.assertAccessible("watched-do-" + screen.width);
    browser.screenshot("watched-do-" + screen.width);
    browser.run("location.hash = '#/attic/do/dose/A8'");
    browser.awaitText(".says .stop", "no pump runs");
    assertFalse(browser.textsOf(".says").toString().contains("Nothing holds"));
    browser.run("location.hash = '#/attic/alerts'");
    browser.awaitText("section[data-code=near-dry] a.act", "Watered by hand");
    assertFalse(browser.textsOf("main a").contains("Water now"));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void cupWithoutAValveIsWateredByHandAndTheOthersAreNot(Dimension screen) {
    StubHost host = page.open(screen, thirsty(false), "attic/alerts");
    browser.awaitText("section[data-code=near-dry] a.act", "Watered by hand");
    browser.run("location.hash = '#/attic/cup/A8'");
    browser.awaitText(".doing summary", "Not now");
    browser.tap(".doing summary");
    browser.awaitText(".doing .not-now", "No valve leads to it, so no pump waters it.");
    host.alerts.clear();
    host.raise(new AlertNotice("near-dry", "A8", "cleared", host.now, 0.5, 0.8, "Nothing to do."));
    host.turn("A8", CupActivity.DUE);
    browser.awaitText(".cup-head", "No pump waters it: water it by hand.");
    browser.run("location.hash = '#/attic/cup/A7'");
    browser.awaitText(".doing > .row", "Water now");
  }
}
