package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.Select;

/** A cup is put on the bench, one like another is, and what it is, is changed. */
class NewCupTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;
  private StubHost host;

  private void open(Dimension screen, String place) {
    host = page.open(screen, StubHost.withCups(12), place);
  }

  private ObjectNode sent() {
    browser.await("an order arrives", () -> !host.orders.isEmpty());
    return host.orders.get(0);
  }

  private Select choice(String label) {
    return new Select(browser.labelled(label));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void newCupGetsAFreeScaleAndTheValveOfItsPlace(Dimension screen) {
    open(screen, "attic/do/add");
    browser.awaitText("h1", "New cup on the bench");
    browser.awaitText(".says", "It stands on scale s13, and valve v13 leads to it");
    assertEquals(
        List.of("s13", "s14", "none"),
        choice("Scale under it").getOptions().stream().map(each -> each.getText()).toList());
    browser.labelled("Cup").sendKeys("B1");
    browser.labelled("Plant").sendKeys("mulberry");
    choice("Vessel").selectByVisibleText("short");
    choice("Scale under it").selectByVisibleText("s14");
    browser.awaitText(".says", "It stands on scale s14, and valve v14 leads to it");
    browser.assertAccessible("add-" + screen.width);
    browser.screenshot("add-" + screen.width);
    browser.tap("form button[type=submit]");
    ObjectNode order = sent();
    assertEquals("add", order.get("kind").asText());
    assertEquals("B1", order.get("cup").asText());
    assertEquals("mulberry", order.get("plant").asText());
    assertEquals("short", order.get("vessel").asText());
    assertEquals("s14", order.get("scale").asText());
    assertEquals("v14", order.get("valve").asText());
    assertEquals("struck", order.get("stage").asText());
    assertFalse(order.has("probe"), "nobody chose one");
  }

  @Test
  void withoutAScaleOrAValveThePageSaysWhatComesOfIt() {
    StubHost full = StubHost.withCups(12);
    full.freeScales = List.of();
    full.freeValves = List.of();
    host = page.open(Browser.WIDE, full, "attic/do/add/B7");
    browser.awaitText("form", "No scale is free.");
    browser.awaitText(".says .stop", "Without a valve it is not watered by the pump");
    browser.awaitText(".says .stop", "Without scale and probe nobody sees how dry it is");
    assertEquals("B7", browser.labelled("Cup").getDomProperty("value"));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void cupLikeAnotherNeedsNothingTypedByKeyboard(Dimension screen) {
    open(screen, "attic/cup/A1");
    browser.awaitText(".doing h2", "Do something with this cup");
    browser.tabTo(".doing a[data-kind=add]");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "New cup on the bench");
    assertEquals("A13", browser.labelled("Cup").getDomProperty("value"));
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    ObjectNode order = sent();
    assertEquals("A13", order.get("cup").asText());
    assertEquals(host.cups.get("A1").status.plant(), order.get("plant").asText());
    assertEquals("12 g", order.get("cutting").asText());
    assertEquals("s13", order.get("scale").asText());
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void plantIsChangedFromTheCupsOwnPage(Dimension screen) {
    open(screen, "attic/cup/A1");
    browser.tap(".doing a[data-kind=change]");
    browser.awaitText("h1", "Change a setting");
    browser.awaitText(".says", "Now cups.A1.plant is blackcurrant.");
    assertEquals(2, choice("Setting").getOptions().size(), "of this cup alone");
    browser.run("document.querySelector('form input[type=text]').focus()");
    browser.typeOver("redcurrant");
    browser.tap("form button[type=submit]");
    ObjectNode order = sent();
    assertEquals("cups.A1.plant", order.get("path").asText());
    assertEquals("blackcurrant", order.get("from").asText());
    assertEquals("redcurrant", order.get("to").asText());
  }

  @Test
  void cupThatAnOrderAddedSaysWhyItsKeysAreNotInTheFile() {
    open(Browser.WIDE, "attic/cup/A2");
    browser.awaitText(".doing summary", "Not now");
    browser.tap(".doing summary");
    browser.awaitText(".doing .not-now", "It does not stand in the bench file: an order added it.");
  }
}
