package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.deque.html.axecore.results.Results;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A real browser without a window, as Debian packages it. */
public final class Browser implements AutoCloseable {
  public static final Dimension WIDE = new Dimension(1400, 1000);
  static final Dimension NARROW = new Dimension(360, 760);

  /** Names {@link #screens}. */
  static final String SCREENS = "dev.cupwarden.host.app.page.Browser#screens";

  private static final Path SCREENSHOTS = Path.of("target", "screenshots");
  private static final int MOST_TABS = 150;
  private static final Duration PATIENCE = Duration.ofSeconds(30);
  private static final Duration BETWEEN_LOOKS = Duration.ofMillis(100);

  final ChromeDriver driver;
  private final Path profile;

  public Browser() {
    try {
      profile = Files.createTempDirectory("cupwarden-browser");
      ChromeOptions options = new ChromeOptions();
      options.setBinary("/usr/bin/chromium");
      options.addArguments(
          "--headless=new",
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--lang=en-GB",
          "--user-data-dir=" + profile);
      LoggingPreferences logs = new LoggingPreferences();
      logs.enable(LogType.BROWSER, Level.ALL);
      options.setCapability("goog:loggingPrefs", logs);
      ChromeDriverService service =
          new ChromeDriverService.Builder()
              .usingDriverExecutable(Path.of("/usr/bin/chromedriver").toFile())
              .usingAnyFreePort()
              .build();
      driver = new ChromeDriver(service, options);
      driver.executeCdpCommand(
          "Emulation.setTimezoneOverride", Map.of("timezoneId", "Europe/London"));
    } catch (IOException e) {
      throw new IllegalStateException("no place for the browser's profile", e);
    }
  }

  /** A laptop's and a phone's, for tests that run on both. */
  static Stream<Dimension> screens() {
    return Stream.of(new Dimension(1366, 768), NARROW);
  }

  public Browser size(Dimension size) {
    // A window cannot be narrower than some 500 px; the emulated screen of a phone can.
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width", size.width, "height", size.height, "deviceScaleFactor", 1, "mobile", false));
    return this;
  }

  public Browser scheme(String scheme) {
    return media("", Map.of("prefers-color-scheme", scheme));
  }

  /** The medium ({@code print}, or empty for the screen) and what its reader prefers. */
  Browser media(String medium, Map<String, String> preferences) {
    List<Map<String, String>> features =
        preferences.entrySet().stream()
            .map(each -> Map.of("name", each.getKey(), "value", each.getValue()))
            .toList();
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia", Map.of("media", medium, "features", features));
    return this;
  }

  public Browser open(String address) {
    driver.get("about:blank");
    consoleErrors(); // those of the page before are read, and gone
    driver.get(address);
    return this;
  }

  /** A host's page at that place of it, once it hears what is live. */
  void open(StubHost host, String place) {
    open(host.address() + "#/" + place);
    await("the page listens", host::isHeard);
  }

  private WebDriverWait waiting() {
    return new WebDriverWait(driver, PATIENCE, BETWEEN_LOOKS);
  }

  WebElement find(String css) {
    return waiting()
        .ignoring(StaleElementReferenceException.class)
        .until(d -> d.findElements(By.cssSelector(css)).stream().findFirst().orElse(null));
  }

  /** The field whose label begins with these words. */
  WebElement labelled(String words) {
    String script =
        "const label = [...document.querySelectorAll('label')]"
            + ".find(each => each.innerText.trim().startsWith(arguments[0]) && each.htmlFor);"
            + " return label && document.getElementById(label.htmlFor)";
    return waiting()
        .withMessage("no field \"" + words + "\"")
        .until(d -> (WebElement) driver.executeScript(script, words));
  }

  /** Scrolls as a finger would, and taps: not where a bar that stays lies over the element. */
  void tap(String css) {
    waiting()
        .ignoring(StaleElementReferenceException.class)
        .until(
            d -> {
              WebElement found = find(css);
              run("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", found);
              found.click();
              return true;
            });
  }

  /** Waits until an element of that selector shows these words. */
  void awaitText(String css, String words) {
    waiting()
        .ignoring(StaleElementReferenceException.class)
        .withMessage(() -> "no \"" + words + "\" in " + css + " but: " + textsOf(css))
        .until(d -> textsOf(css).stream().anyMatch(text -> text.contains(words)));
  }

  public void await(String what, java.util.function.BooleanSupplier condition) {
    waiting().withMessage(what).until(d -> condition.getAsBoolean());
  }

  public List<String> textsOf(String css) {
    Object texts =
        driver.executeScript(
            "return [...document.querySelectorAll(arguments[0])].map(e => e.innerText)", css);
    return ((List<?>) texts).stream().map(String::valueOf).toList();
  }

  Object run(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  /** Writes what is seen, the whole page high, for a person to look at. */
  public void screenshot(String name) {
    try {
      Files.createDirectories(SCREENSHOTS);
      Number width = (Number) run("return innerWidth");
      Number height = (Number) run("return Math.min(6000, document.scrollingElement.scrollHeight)");
      Files.write(
          SCREENSHOTS.resolve(name + ".png"), picture(0, width.intValue(), height.intValue()));
    } catch (IOException e) {
      throw new IllegalStateException("screenshot not written", e);
    }
  }

  /** PNG of a part of the page. */
  byte[] picture(int top, int width, int height) {
    Map<String, Object> part =
        Map.of("x", 0, "y", top, "width", width, "height", height, "scale", 1);
    Map<String, Object> taken =
        driver.executeCdpCommand(
            "Page.captureScreenshot", Map.of("captureBeyondViewport", true, "clip", part));
    return java.util.Base64.getDecoder().decode((String) taken.get("data"));
  }

  /** Tab, until the focus is on an element of that selector. */
  void tabTo(String css) {
    tabTo(css, "");
  }

  /** To an element of that selector that shows these words. */
  void tabTo(String css, String words) {
    String reached =
        "const e = document.activeElement;"
            + " return e.matches(arguments[0]) && e.innerText.includes(arguments[1])";
    for (int i = 0; i < MOST_TABS; i++) {
      press(Keys.TAB);
      if (Boolean.TRUE.equals(run(reached, css, words))) {
        return;
      }
    }
    throw new AssertionError("Tab never reaches " + css + " \"" + words + "\"");
  }

  void press(CharSequence... keys) {
    new Actions(driver).sendKeys(keys).perform();
  }

  /** Writes over what stands in the field that has the focus. */
  void typeOver(String words) {
    new Actions(driver).keyDown(Keys.CONTROL).sendKeys("a").keyUp(Keys.CONTROL).perform();
    press(words);
  }

  /** With Shift held. */
  void shift(Keys key) {
    new Actions(driver).keyDown(Keys.SHIFT).sendKeys(key).keyUp(Keys.SHIFT).perform();
  }

  /** No violation by the rules of axe. */
  void assertAccessible(String view) {
    Results results = new AxeBuilder().analyze(driver);
    List<String> found =
        results.getViolations().stream()
            .map(
                rule ->
                    rule.getId()
                        + ": "
                        + rule.getNodes().stream()
                            .map(node -> node.getHtml() + " " + node.getFailureSummary())
                            .limit(4)
                            .toList())
            .toList();
    assertEquals(List.of(), found, "accessibility of " + view);
  }

  /** No error in the browser's console: among others, nothing that the content policy refused. */
  List<String> consoleErrors() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.SEVERE.intValue())
        .map(LogEntry::getMessage)
        .toList();
  }

  @Override
  public void close() {
    driver.quit();
    try (Stream<Path> files = Files.walk(profile)) {
      files.sorted(Comparator.reverseOrder()).map(Path::toFile).forEach(File::delete);
    } catch (IOException e) {
      throw new IllegalStateException("the browser's profile stays in " + profile, e);
    }
  }
}
