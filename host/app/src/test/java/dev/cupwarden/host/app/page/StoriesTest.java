package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.house.SourceTree;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;

/** What a grower comes to the page for, each done by keyboard alone, from the bench on. */
class StoriesTest {
  @AutoClose
  private static final Browser browser = new Browser().size(Browser.WIDE).scheme("light");

  private StubHost host;

  @AfterEach
  void stopHost() {
    assertEquals(java.util.List.of(), browser.consoleErrors());
    host.close();
  }

  private void openTroubledBench() {
    host = StubHost.troubled();
    browser.open(host.address());
    browser.awaitText("h1", "3 cups need a look.");
  }

  private void goTo(String view, String title) {
    browser.tabTo("nav a[data-path=" + view + "]");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", title);
  }

  @Test
  void benchTheFirstCardThatIsReachedIsACupInTrouble() {
    openTroubledBench();
    browser.tabTo("a.card");
    assertEquals(
        "trouble", browser.run("return document.activeElement.getAttribute('data-group')"));
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "A2, mulberry");
    browser.awaitText(".cup-state", "dry");
  }

  @Test
  void cupItsCurveIsZoomedAndItTellsWhyItWasNotWateredThen() {
    openTroubledBench();
    browser.tabTo("a.card[href$='/cup/A8']");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "A8, pomegranate");
    browser.awaitText("p[role=status]", "Between ");
    String before = browser.find(".panel p[role=status]").getText();
    browser.tabTo(".chart");
    browser.press("+");
    browser.await("zoomed", () -> !browser.textsOf(".panel p[role=status]").get(0).equals(before));
    browser.press("0");
    browser.awaitText("p[role=status]", before.substring(0, 12));
    browser.shift(Keys.ARROW_LEFT);
    browser.shift(Keys.ARROW_LEFT);
    browser.awaitText(".moment", "g, ");
    browser.awaitText(".moment .says", "utside the watering window, which opens");
    browser.awaitText(".moment", "So from ");
    browser.tabTo(".moment button");
    browser.press(Keys.ENTER);
    browser.awaitText(".moment .says", "No limit held it back");
    browser.awaitText(".course + p", "mS/cm");
  }

  @Test
  void dryDownsACupIsPickedAndComparedWithItsNeighbour() {
    openTroubledBench();
    goTo("dry-downs", "Dry-downs");
    browser.tabTo("button[aria-pressed=false]", "A8");
    browser.press(Keys.SPACE);
    browser.awaitText("table", "A8");
    browser.awaitText(".says", "A8");
  }

  @Test
  void doingACupIsWateredAndTheReceiptFollows() {
    openTroubledBench();
    goTo("do", "What do you want to do?");
    browser.tabTo("a[href$='/do/dose']");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "Water now");
    browser.tabTo("form select");
    browser.press("A7");
    browser.awaitText(".says", "Room to the refill line");
    browser.tabTo("form input[inputmode=decimal]");
    browser.typeOver("25");
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    browser.await("an order arrives", () -> !host.orders.isEmpty());
    ObjectNode order = host.orders.get(0);
    assertEquals("A7", order.get("cup").asText());
    assertEquals(25.0, order.get("ml").asDouble());
    browser.awaitText("tr[data-order=o-1]", "no receipt yet");
  }

  @Test
  void tanksTheNextMixIsReckonedAndAFillIsTold() {
    openTroubledBench();
    goTo("tanks", "Tanks and feed");
    browser.awaitText("section[data-tank=plain]", "lasts about 41 d, until Mar 27, 2027");
    browser.awaitText(".panel strong", "Next switch: to bloom on Apr 15, 2027, in 60 d");
    browser.tabTo("input[inputmode=decimal]");
    browser.typeOver("8");
    // 8 L at half of 1.532 g/L is 6.128 g.
    browser.awaitText("p[role=status]", "6.13 g of feed");
    browser.run("document.querySelector('#skip').focus()");
    browser.tabTo("a[href$='/do/filled/feed']");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "Tank filled");
    browser.tabTo("form input[inputmode=decimal]");
    browser.typeOver("4000");
    browser.awaitText(".says", "On record now");
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    browser.await("an order arrives", () -> !host.orders.isEmpty());
    assertEquals("filled", host.orders.get(0).get("kind").asText());
  }

  @Test
  void alertsOneIsMarkedAsSeenForEverybody() {
    openTroubledBench();
    goTo("alerts", "Alerts");
    browser.tabTo("section[data-code=tank-low] button");
    browser.press(Keys.ENTER);
    browser.awaitText("section[data-code=tank-low]", "Seen by gardener");
    browser.awaitText("nav .badge", "3");
  }

  @Test
  void seasonIsLookedAtByVesselWithWhatWasTakenOutAndPrinted() {
    openTroubledBench();
    goTo("season", "Season");
    browser.awaitText("table", "A14");
    browser.tabTo(".tools button:nth-child(3)");
    browser.press(Keys.SPACE);
    browser.awaitText("tbody th", "short");
    browser.awaitText("table", "rotted");
    browser.awaitText(".foretold table", "2 of 3");
    browser.awaitText(".foretold", "After it");
    browser.run("window.print = () => { document.title = 'printed'; }");
    browser.tabTo(".tools button:last-child");
    browser.press(Keys.ENTER);
    browser.await("printed", () -> "printed".equals(browser.driver.getTitle()));
  }

  @Test
  void firstRunTheFirstBenchFileIsTakenAlong() {
    host = StubHost.empty();
    browser.open(host.address());
    browser.awaitText("h1", "No bench yet");
    assertEquals(
        SourceTree.firstBench(), browser.run("return document.querySelector('pre').textContent"));
    browser.tabTo("main button");
    browser.press(Keys.ENTER);
    browser.await(
        "copied or selected",
        () ->
            browser.textsOf(".row [role=status]").stream()
                .anyMatch(text -> text.startsWith("Copied") || text.startsWith("Selected")));
  }

  @Test
  void quickOneOfTwoHundredCupsIsFoundByItsName() {
    host = StubHost.withCups(200);
    browser.open(host.address());
    browser.awaitText("h1", "All 200 cups are well.");
    browser.tabTo("input[type=search]");
    browser.press("A173");
    browser.awaitText("p[role=status]", "1 cup found");
    browser.tabTo("a.card");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "A173, ");
    assertFalse(browser.textsOf(".cup-facts").isEmpty());
  }
}
