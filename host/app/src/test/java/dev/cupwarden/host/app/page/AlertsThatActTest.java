package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Receipt;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;

/** From an alert to the order that answers it, and what stops all cups told first. */
class AlertsThatActTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;
  private StubHost host;

  private void open(Dimension screen, StubHost started, String hash) {
    host = page.with(started);
    browser.size(screen).open(host, hash);
  }

  private static AlertNotice notice(StubHost of, String code, String cup, String tank) {
    return new AlertNotice(
        code, cup, "raised", of.now, 1, 2, "Look.", tank, List.of(), false, 0, false);
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void eachAlertHasTheOrderThatAnswersIt(Dimension screen) {
    StubHost bench = StubHost.withCups(12);
    for (String cup : List.of("A1", "A2", "A3")) {
      bench.alerts.add(notice(bench, "look-at-roots", cup, null));
    }
    bench.alerts.add(notice(bench, "salts-high", "A7", null));
    bench.alerts.add(notice(bench, "salts-high", "A8", null));
    bench.alerts.add(notice(bench, "tank-low", null, "feed"));
    bench.alerts.add(notice(bench, "leak", null, null));
    bench.alerts.add(notice(bench, "frost", null, null));
    open(screen, bench, "attic/alerts");
    browser.awaitText("section[data-code=leak] a.act", "Clear a fault");
    browser.awaitText("section[data-code=look-at-roots] a.act", "Roots seen");
    assertEquals(
        List.of("Flush with plain water: A7", "Flush with plain water: A8"),
        browser.textsOf("section[data-code=salts-high] a.act"));
    assertEquals(List.of(), browser.textsOf("section[data-code=frost] a.act"));
    browser.assertAccessible("alerts-that-act-" + screen.width);
    browser.screenshot("alerts-that-act-" + screen.width);
    browser.tap("section[data-code=look-at-roots] a.act");
    browser.awaitText(".says", "One order for 3 cups: A1, A2, A3");
    browser.open(host.address() + "#/attic/alerts");
    browser.tap("section[data-code=tank-low] a.act");
    browser.awaitText("h1", "Tank filled");
    browser.awaitText(".says", "On record now: leafy");
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void waterThatWasToldJustBeforeIsQuestionedOnce(Dimension screen) {
    open(screen, StubHost.withCups(8), "attic/do/watered/A8");
    browser.awaitText("h1", "Watered by hand");
    assertEquals("", browser.find("form input[inputmode=decimal]").getAttribute("value"));
    browser.find("form input[inputmode=decimal]").sendKeys("50");
    browser.tap("form button[type=submit]");
    browser.await("an order arrives", () -> host.orders.size() == 1);
    host.receive(Receipt.done("o-1"));
    browser.awaitText("tr[data-order=o-1]", "done");
    browser.tap("form button[type=submit]");
    browser.awaitText("form .error", "“Watered by hand”, 50 mL, was sent 0 s ago.");
    assertEquals(1, host.orders.size());
    browser.tap("form button[type=submit]");
    browser.await("it was meant", () -> host.orders.size() == 2);
  }

  @Test
  void whatStopsEveryCupStandsFirstInWhyNotNow() {
    StubHost bench = StubHost.withCups(8);
    bench
        .cups
        .get("A8")
        .tell(
            "reasons",
            List.of(
                new CupStatus.Told("no-dry-back", 0.1, 0.2, "depletion", "It has not dried back."),
                new CupStatus.Told("window", 600, 0, "min", "It opens in 10 h.")));
    open(Browser.WIDE, bench, "attic/cup/A8");
    browser.awaitText(".side-first .says li", "It opens in 10 h.");
    List<String> lines = browser.textsOf(".side-first > :first-child .panel:first-child .says li");
    assertTrue(lines.get(0).contains("It opens in 10 h."), lines.toString());
    assertTrue(lines.get(1).contains("It is not due"), lines.toString());
    host.raise(notice(bench, "tank-empty", null, "plain"));
    host.send("cup", Map.of("bench", StubHost.BENCH, "cup", host.cups.get("A8").status));
    browser.awaitText(".side-first .says li", "Tank empty");
    lines = browser.textsOf(".side-first > :first-child .panel:first-child .says li");
    assertTrue(lines.get(0).contains("Tank empty"), lines.toString());
  }
}
