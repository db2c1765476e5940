package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;

/** What is new since the reader's last look comes first. */
class NewsTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;
  private StubHost host;

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void whatIsNewSinceTheLastLookStandsBeforeTheCupsUntilItIsSeen(Dimension screen) {
    host = page.with(StubHost.withCups(6));
    browser.size(screen).open(host.address());
    browser.awaitText("h1", "All 6 cups are well.");
    browser.await(
        "the look is kept",
        () -> browser.run("return localStorage.getItem('cupwarden.look.attic')") != null);
    assertEquals(List.of(), browser.textsOf(".news"), "a first look has no news");
    browser.open("about:blank");
    host.now = host.now.plus(Duration.ofHours(20));
    host.pass("A2", 30, "due");
    AlertNotice low = new AlertNotice("scale-stuck", "A4", "raised", host.now, 1, 2, "Lift it.");
    host.alerts.add(low);
    host.pastAlerts.add(new Event("e1", 77, host.now, "alert", "A4", Json.MAPPER.valueToTree(low)));
    browser.open(host.address());
    browser.awaitText(".news h2", "New since you looked");
    browser.awaitText(".news h2", "(20 h ago)");
    browser.awaitText(".news .says", "30 mL given to 1 cup.");
    browser.awaitText(".news .says", ": A4");
    browser.assertAccessible("news-" + screen.width);
    browser.screenshot("news-" + screen.width);
    browser.tap(".news button");
    browser.await("it is put away", () -> browser.textsOf(".news").isEmpty());
    browser.open(host.address());
    browser.awaitText("h1", "One cup needs a look.");
    assertEquals(List.of(), browser.textsOf(".news"));
    browser.run("localStorage.clear()");
  }
}
