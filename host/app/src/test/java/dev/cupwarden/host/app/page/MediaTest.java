package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.CupActivity;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.Test;

/** The page for who wants nothing to move, and on paper. */
class MediaTest {
  @AutoClose private static final Browser browser = new Browser().size(Browser.WIDE);
  private final StubHost host = StubHost.troubled();

  @AfterEach
  void stopHost() {
    host.close();
  }

  private Object transitionOfTheWater() {
    return browser.run(
        "return getComputedStyle(document.querySelector('.c-water')).transitionDuration");
  }

  @Test
  void nothingMovesForWhoWantsNoMotion() {
    browser.media("", Map.of("prefers-reduced-motion", "no-preference"));
    browser.open(host.address());
    browser.awaitText("h1", "3 cups need a look.");
    assertEquals("0.8s", transitionOfTheWater(), "else water rises softly");
    browser.media("", Map.of("prefers-reduced-motion", "reduce"));
    browser.await("it is still", () -> "0s".equals(transitionOfTheWater()));
    browser.await("the page listens", host::isHeard);
    host.turn("A8", CupActivity.DRY);
    browser.awaitText("h1", "4 cups need a look.");
    assertEquals(0L, browser.run("return document.getAnimations().length"));
  }

  @Test
  void theSeasonIsPrintedDarkOnWhiteWithoutControlsEvenByNight() {
    browser.media("print", Map.of("prefers-color-scheme", "dark"));
    browser.open(host.address() + "#/attic/season");
    browser.awaitText("table", "A14");
    assertEquals(
        List.of(),
        browser.run(
            "return [...document.querySelectorAll('nav, header, footer, button, select')]"
                + ".filter(e => e.checkVisibility()).map(e => e.outerHTML)"));
    assertEquals(
        "rgb(255, 255, 255)",
        browser.run("return getComputedStyle(document.body).backgroundColor"));
    // Ink and paper of every cell: by WCAG 2.2 at least 4.5 to 1.
    browser.assertAccessible("season-printed");
    browser.screenshot("season-printed");
  }
}
