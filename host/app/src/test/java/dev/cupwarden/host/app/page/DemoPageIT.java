package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.support.ui.WebDriverWait;

/** The packaged demo in a real browser: the first cup is watered, and the page shows it. */
class DemoPageIT {
  private static final Duration FIRST_WATERING = Duration.ofSeconds(60);

  @Test
  void firstCupIsWateredWithinAMinuteAndThePageShowsIt() throws Exception {
    try (PackagedDemo demo = new PackagedDemo();
        Browser browser = new Browser()) {
      browser.size(Browser.WIDE).open(demo.address);
      new WebDriverWait(browser.driver, FIRST_WATERING)
          .withMessage(() -> "no cup is watered: " + browser.textsOf("main"))
          .until(
              d ->
                  // A first round is over in seconds here; what the tank lost stays to be seen.
                  browser.textsOf("main").stream()
                      .anyMatch(text -> text.contains("soaking") || text.contains("plain 11.")));
      new WebDriverWait(browser.driver, FIRST_WATERING)
          .withMessage("no weight curve is drawn")
          .until(
              d ->
                  (Long)
                          browser.run(
                              "return [...document.querySelectorAll('.s-curve')]"
                                  + ".filter(c => /^M[0-9. L]+$/.test(c.getAttribute('d') || ''))"
                                  + ".length")
                      == 12L);
      assertEquals(12, browser.textsOf(".s-curve").size());
      browser.screenshot("demo-wide");
      browser.run("location.hash = '#/back-room/tanks'");
      browser.awaitText("section[data-tank=plain]", "of 12.0 L");
      browser.awaitText("p[role=status]", "g of feed, or a little over 1/2 level teaspoon");
      browser.screenshot("demo-tanks-wide");
      assertEquals(List.of(), browser.consoleErrors());
    }
  }
}
