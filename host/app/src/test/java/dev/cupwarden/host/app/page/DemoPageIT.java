package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.broker.LoopbackPort;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.support.ui.WebDriverWait;

/** The packaged demo in a real browser: the first cup is watered, and the page shows it. */
class DemoPageIT {
  private static final Duration FIRST_WATERING = Duration.ofSeconds(60);

  @Test
  void firstCupIsWateredWithinAMinuteAndThePageShowsIt() throws Exception {
    LoopbackPort port = LoopbackPort.anyFree("the page", "--port");
    Process demo =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-jar",
                Path.of("target", "cupwarden-host.jar").toString(),
                "demo",
                "--port",
                Integer.toString(port.number()))
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    try (Browser browser = new Browser()) {
      String said =
          new BufferedReader(new InputStreamReader(demo.getInputStream(), StandardCharsets.UTF_8))
              .readLine();
      String address = "http://127.0.0.1:" + port.number() + "/";
      assertTrue(said.contains(address), said);
      browser.size(Browser.WIDE).open(address);
      new WebDriverWait(browser.driver, FIRST_WATERING)
          .withMessage(() -> "no cup is watered: " + browser.textsOf("main"))
          .until(
              d ->
                  browser.textsOf("main").stream()
                      .anyMatch(text -> text.contains("soaking") || text.contains("watered")));
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
    } finally {
      demo.destroy();
      assertTrue(demo.waitFor(30, java.util.concurrent.TimeUnit.SECONDS), "ends when told");
    }
  }
}
