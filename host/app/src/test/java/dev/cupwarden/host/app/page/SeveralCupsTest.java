package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Receipt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.Select;

/** One order for several cups, on a laptop and on a phone. */
class SeveralCupsTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;
  private StubHost host;
  private int taps;

  private void open(Dimension screen, StubHost started) {
    host = page.with(started);
    browser.size(screen).open(host.address());
    browser.awaitText(".chooser", "All (12)");
    browser.await("the page listens", host::isHeard);
  }

  private void tap(String css) {
    browser.tap(css);
    taps++;
  }

  private ObjectNode order(int count) {
    browser.await("an order arrives", () -> host.orders.size() == count);
    return host.orders.get(0);
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void twelveCupsGoOutAndComeBackInThreeTapsEach(Dimension screen) {
    open(screen, StubHost.withCups(12));
    tap(".chooser button");
    browser.awaitText(".chosen [role=status]", "12 cups chosen: A1, A2");
    tap(".chosen [data-kind=away]");
    browser.awaitText(".says", "One order for 12 cups");
    tap("form button[type=submit]");
    ObjectNode out = order(1);
    assertEquals("away", out.get("kind").asText());
    assertEquals(12, out.get("cups").size());
    assertEquals(3, taps);
    host.receive(Receipt.done("o-1"));
    browser.awaitText("tr[data-order=o-1]", "done");
    host.cups.keySet().forEach(cup -> host.turn(cup, CupActivity.AWAY));
    taps = 0;
    browser.open(host.address());
    browser.awaitText(".group-aside .count", "12");
    tap(".chooser button");
    tap(".chosen [data-kind=back]");
    browser.awaitText(".says", "One order for 12 cups");
    tap("form button[type=submit]");
    assertEquals("back", order(2).get("kind").asText());
    assertEquals(12, host.orders.get(0).get("cups").size());
    assertEquals(3, taps);
  }

  /** A2 dry, A3 wet, A4 in doubt, A5 away, A6 held. */
  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void eachOrderNamesTheChosenCupsThatItIsForNow(Dimension screen) {
    open(screen, StubHost.troubled());
    tap(".chooser button");
    browser.awaitText(".chosen [data-kind=back]", "Put back (1)");
    browser.awaitText(".chosen [data-kind=away]", "Taken off the bench (11)");
    browser.awaitText(".chosen [data-kind=release]", "Release a hold (1)");
    assertEquals("Roots seen", browser.find(".chosen [data-kind=stage]").getText());
    host.turn("A7", CupActivity.AWAY);
    browser.awaitText(".chosen [data-kind=back]", "Put back (2)");
    tap(".chosen [data-kind=back]");
    browser.awaitText(".says", "One order for 2 cups: A5, A7");
    browser.tap("form button[type=submit]");
    assertEquals("[\"A5\",\"A7\"]", order(1).get("cups").toString());
    browser.tap(".cup-top a");
    browser.await("sent: none is chosen", () -> browser.textsOf(".chosen:not([hidden])").isEmpty());
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void cupsAreChosenByRowPlantOrStageAndWhatIsChosenOutlivesALookAtTheForm(Dimension screen) {
    open(screen, StubHost.withCups(12));
    browser.awaitText(".chooser", "Leafy (6)");
    new Select(browser.find(".chooser select")).selectByVisibleText("elder (2)");
    browser.awaitText(".chosen [role=status]", "2 cups chosen: A5, A10");
    new Select(browser.find(".chooser select")).selectByVisibleText("white roots (3)");
    browser.awaitText(".chosen [role=status]", "3 cups chosen: A2, A6, A10");
    browser.tap(".chosen [data-kind=stage]");
    browser.awaitText("h1", "Roots seen");
    browser.tap("input[value=toughened]");
    browser.tap(".cup-top a");
    browser.awaitText(".chosen [role=status]", "3 cups chosen: A2, A6, A10");
    browser.tap(".chosen [data-kind=stage]");
    browser.tap("input[value=toughened]");
    browser.tap("form button[type=submit]");
    assertEquals("[\"A2\",\"A6\",\"A10\"]", order(1).get("cups").toString());
    assertEquals("toughened", host.orders.get(0).get("stage").asText());
  }

  @Test
  void cupsAreTickedAndHeldByKeyboardAlone() {
    open(new Dimension(1366, 768), StubHost.withCups(12));
    browser.tabTo("input[data-cup=A8]");
    browser.press(Keys.SPACE);
    browser.run("document.querySelector('.chooser button').focus()");
    browser.tabTo("input[data-cup=A3]");
    browser.press(Keys.SPACE);
    browser.awaitText(".chosen [role=status]", "2 cups chosen: A3, A8");
    browser.tabTo(".chosen [data-kind=hold]");
    host.turn("A3", CupActivity.AWAY);
    browser.awaitText(".chosen [data-kind=back]", "Put back (1)");
    assertEquals(
        "hold",
        browser.run("return document.activeElement.getAttribute('data-kind')"),
        "the focus stays over live news");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "Hold");
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    assertEquals("[\"A3\",\"A8\"]", order(1).get("cups").toString());
  }

  @Test
  void cupsAreChosenOnTheFormToo() {
    host = page.with(StubHost.withCups(12));
    browser.size(Browser.NARROW).open(host.address() + "#/attic/do/watered/A1");
    browser.awaitText("h1", "Watered by hand");
    browser.tap("details.field summary");
    browser.tap(".chooser button:nth-of-type(2)");
    browser.awaitText(".says", "One order for 6 cups: A3, A4, A7, A8, A11, A12");
    browser.find("form input[inputmode=decimal]").sendKeys("50");
    browser.tap("form button[type=submit]");
    assertEquals(6, order(1).get("cups").size());
  }

  @Test
  void barOfTheChosenIsAccessible() {
    for (Dimension screen : Browser.screens().toList()) {
      if (host != null) {
        host.close();
      }
      open(screen, StubHost.troubled());
      browser.tap(".chooser button");
      browser.awaitText(".chosen [role=status]", "12 cups chosen");
      browser.assertAccessible("several-" + screen.width);
      browser.screenshot("several-" + screen.width);
    }
  }
}
