package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupActivity;
import java.util.List;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.interactions.Actions;

/** The bench at a glance, in a real browser. */
class BenchViewTest {
  @AutoClose private static final Browser browser = new Browser();

  @BeforeEach
  void usualScreen() {
    browser.size(Browser.WIDE).scheme("light");
  }

  @Test
  void troubleComesFirstAndTheHeadlineCountsIt() {
    try (StubHost host = StubHost.troubled()) {
      browser.open(host.address());
      browser.awaitText("h1", "3 cups need a look.");
      List<String> groups = browser.textsOf(".group:not([hidden]) h2");
      assertTrue(groups.get(0).startsWith("Needs a look"), groups.toString());
      assertEquals(List.of("A2", "A3", "A4"), browser.textsOf(".group-trouble .card-name"));
      browser.awaitText(".group-trouble .card-state", "too wet");
      browser.awaitText(".alert-lines", "Fill the tank");
      browser.awaitText(".group-aside .card-state", "held");
      assertEquals(List.of(), browser.consoleErrors());
    }
  }

  @Test
  void everyCupShowsItsCurveItsStateAndItsForecast() {
    try (StubHost host = StubHost.withCups(6)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 6 cups are well.");
      browser.await(
          "six curves",
          () ->
              Long.valueOf(6)
                  .equals(
                      browser.run(
                          "return document.querySelectorAll('.spark .s-curve[d]').length")));
      assertEquals(
          6, browser.textsOf(".card-forecast").stream().filter(w -> w.contains("due")).count());
      browser.awaitText(".age", "08:05");
      assertTrue(
          browser.textsOf(".age").get(0).matches(".*\\b14\\b.*"), "the bench's own day is shown");
    }
  }

  @Test
  void aCupThatTurnsDryIsSeenAndSaidWithinThreeSeconds() {
    try (StubHost host = StubHost.withCups(6)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 6 cups are well.");
      browser.await("the page listens", host::isHeard);
      browser.awaitText(".age", "waiting for news");
      long told = System.nanoTime();
      host.now = host.now.plusSeconds(300);
      host.turn("A5", CupActivity.DRY);
      browser.awaitText(".group-trouble .card-name", "A5");
      long seenMs = (System.nanoTime() - told) / 1_000_000;
      browser.awaitText("#said", "Cup A5 is dry.");
      browser.awaitText("h1", "One cup needs a look.");
      assertTrue(seenMs < 3000, "seen after " + seenMs + " ms");
    }
  }

  @Test
  void anAlertComesAndGoesLive() {
    try (StubHost host = StubHost.withCups(6)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 6 cups are well.");
      browser.await("the page listens", host::isHeard);
      host.raise(
          new AlertNotice(
              "leak", null, "raised", host.now, 1, 0, "Mop up, then look for where it came from."));
      browser.awaitText(".alert-lines", "Mop up");
      browser.awaitText("h1", "The bench needs a look.");
      host.raise(new AlertNotice("leak", null, "cleared", host.now, 0, 0, ""));
      browser.awaitText("h1", "All 6 cups are well.");
    }
  }

  @Test
  void theCardWithTheFocusKeepsItWhenItMoves() {
    try (StubHost host = StubHost.withCups(6)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 6 cups are well.");
      browser.await("the page listens", host::isHeard);
      browser.run("document.querySelector('a.card[href$=\"A6\"]').focus()");
      host.turn("A6", CupActivity.WET);
      browser.awaitText(".group-trouble .card-name", "A6");
      assertEquals(
          "#/attic/cup/A6", browser.run("return document.activeElement.getAttribute('href')"));
    }
  }

  @Test
  void thePageSurvivesAHostThatGoesAwayAndSaysSo() {
    try (StubHost host = StubHost.withCups(6)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 6 cups are well.");
      browser.await("the page listens", host::isHeard);
      host.goAway();
      browser.awaitText("#banner", "Host not reached");
      browser.awaitText("#said", "cannot be reached");
      host.cups.get("A1").become(CupActivity.WET, host.now);
      host.comeBack();
      browser.awaitText("h1", "One cup needs a look.");
      browser.await(
          "the banner is gone",
          () -> browser.driver.findElement(By.id("banner")).getText().isEmpty());
    }
  }

  /** Else each module would be asked for only after the one that needs it had come. */
  @Test
  void allThatTheBenchNeedsIsAskedForAtOnceAndNothingElse() {
    try (StubHost host = StubHost.withCups(6)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 6 cups are well.");
      Object asked =
          browser.run(
              "return performance.getEntriesByType('resource').map(e => new URL(e.name).pathname)"
                  + ".filter(path => path.endsWith('.js')).sort().filter((p, i, all) => p !== all[i - 1])");
      Object told =
          browser.run(
              "return [...document.querySelectorAll('link[rel=modulepreload]')]"
                  + ".map(link => new URL(link.href).pathname).sort()");
      assertEquals(asked, told);
    }
  }

  @Test
  void enterOnACardOpensTheCupAndItsCurve() {
    try (StubHost host = StubHost.troubled()) {
      browser.open(host.address());
      browser.awaitText("h1", "need a look");
      browser.run("document.querySelector('a.card[href$=\"A3\"]').focus()");
      new Actions(browser.driver).sendKeys(Keys.ENTER).perform();
      browser.awaitText("h1", "A3, pomegranate");
      browser.find(".chart canvas");
      browser.awaitText(".says", "more water than its wet line");
      browser.awaitText("p[role=status]", "Between ");
      assertEquals("H1", browser.run("return document.activeElement.tagName"));
      assertEquals(List.of(), browser.consoleErrors());
    }
  }

  @Test
  void twoHundredCupsStayReadableAndCanBeSearched() {
    try (StubHost host = StubHost.withCups(200)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 200 cups are well.");
      assertEquals(200, browser.driver.findElements(By.cssSelector(".card")).size());
      browser.find("input[type=search]").sendKeys("A17");
      browser.awaitText("p[role=status]", "11 cups found");
    }
  }

  @Test
  void twoHundredCupsUpdateWithinAFractionOfASecond() {
    try (StubHost host = StubHost.withCups(200)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 200 cups are well.");
      Object medianMs =
          browser.driver.executeAsyncScript(
              "const done = arguments[arguments.length - 1];"
                  + "import('/js/store.js').then(async ({store}) => {"
                  + "  const spent = [];"
                  + "  for (let round = 0; round < 7; round += 1) {"
                  + "    const began = performance.now();"
                  + "    for (const cup of [...store.bench('attic').cups.values()]) store.hear('cup', {bench: 'attic', cup: {...cup, depletion: cup.depletion + 0.001}});"
                  + "    await new Promise((next) => requestAnimationFrame(() => setTimeout(next)));"
                  + "    document.body.getBoundingClientRect();"
                  + "    spent.push(performance.now() - began);"
                  + "  }"
                  + "  done(spent.sort((a, b) => a - b)[3]);"
                  + "});");
      double ms = ((Number) medianMs).doubleValue();
      System.out.printf("200 cups updated at once: %.0f ms, a frame's wait included%n", ms);
      assertTrue(ms < 1000, "an update each second must fit in its second: " + ms + " ms");
    }
  }
}
