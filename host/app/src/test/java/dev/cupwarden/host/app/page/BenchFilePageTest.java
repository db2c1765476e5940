package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;

/** The bench file, read and changed as text on a real host. */
class BenchFilePageTest {
  private static final String FILE =
      """
      bench: attic   # under the roof
      watering:
        pass: 30 mL  # small cups
      climate: {cold: 12 C}
      mixes:
        coir-perlite:
          retention: {saturated: 0.82, residual: 0.12, alpha: 0.22, n: 1.55}
          unavailable: 0.10
          least_air: 0.10
          dry_density: 0.10
      vessels:
        tall: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}
      cups:
        A1: {vessel: tall, mix: coir-perlite, plant: fig, stage: struck, cutting: 12 g}
      """;

  @AutoClose private static final Browser browser = new Browser().scheme("light");

  @TempDir Path data;
  private final StubHost bench = StubHost.unserved(3);
  private RealHost host;

  @BeforeEach
  void startHostAndTellOfTheBench() throws Exception {
    bench.file = Optional.of(FILE);
    host = new RealHost(data, bench);
  }

  @AfterEach
  void stop() throws Exception {
    assertEquals(List.of(), browser.consoleErrors());
    host.close();
  }

  private void open(Dimension screen) {
    browser.size(screen).open(host.address() + "#/attic/do");
    browser.awaitText(".actions", "Bench file");
    browser.tap("a[href$='/file']");
    browser.awaitText("h1", "Bench file");
    assertEquals(FILE, browser.find("textarea").getDomProperty("value"));
  }

  private void write(String was, String is) {
    assertTrue(FILE.contains(was), was);
    browser.run(
        "const area = document.querySelector('textarea'); area.value = arguments[0];"
            + " area.dispatchEvent(new Event('input'))",
        FILE.replace(was, is));
    browser.tap("button.main");
  }

  private List<String> orders() throws Exception {
    List<String> told = new ArrayList<>();
    JsonNode all = host.json("api/benches/attic/orders");
    all.forEach(
        order ->
            told.add(
                "%s: %s -> %s"
                    .formatted(order.path("path").asText(), order.get("from"), order.get("to"))));
    return told;
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void keysThatAreChangedGoAsOrdersAndComeBackByOneButton(Dimension screen) throws Exception {
    open(screen);
    write("pass: 30 mL  # small cups\nclimate: {cold: 12 C}", "pass: 25 mL\nclimate: {cold: 11 C}");
    browser.awaitText(".says .go", "watering.pass: 30 mL → 25 mL");
    browser.awaitText(".says .go", "climate.cold: 12 C → 11 C");
    browser.awaitText(".says .stop", "Remarks and layout that you changed stay as they are");
    browser.assertAccessible("file-" + screen.width);
    browser.screenshot("file-" + screen.width);
    assertEquals(List.of(), orders(), "nothing goes before a person says so");
    browser.tap("[aria-live] button.main");
    browser.awaitText("main", "2 changes sent to the controller.");
    List<String> went =
        List.of("climate.cold: \"12 C\" -> \"11 C\"", "watering.pass: \"30 mL\" -> \"25 mL\"");
    assertEquals(went, orders());
    browser.press(Keys.ENTER);
    browser.awaitText("main", "The 2 changes are taken back");
    assertEquals(
        List.of("watering.pass: \"25 mL\" -> \"30 mL\"", "climate.cold: \"11 C\" -> \"12 C\""),
        orders().subList(0, 2));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void whatIsWrongIsToldByLineAndWhatNoOrderChangesByKey(Dimension screen) throws Exception {
    open(screen);
    write("cold: 12 C", "cold: 12 mL");
    browser.awaitText(".error", "Line 4: ");
    browser.awaitText("main button", "Go to line 4");
    browser.tap("[aria-live] button");
    browser.awaitText("main", "Line 4 of 15, column 1");
    assertEquals(
        "climate: {cold: 12 mL}",
        browser.run(
            "const a = document.activeElement;"
                + " return a.value.slice(a.selectionStart, a.selectionEnd)"));
    browser.screenshot("file-wrong-" + screen.width);
    browser.assertAccessible("file-wrong-" + screen.width);
    write("bench: attic", "bench: loft");
    browser.awaitText(
        ".says .stop", "bench: is changed in the bench file only, with the bench stopped");
    assertEquals(List.of(), orders());
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void fileThatChangesUnderAnEditIsSaidAndTheEditStays(Dimension screen) throws Exception {
    open(screen);
    write("30 mL", "20 mL");
    browser.awaitText(".says .go", "30 mL → 20 mL");
    bench.now = bench.now.plusSeconds(60);
    bench.file = Optional.of(FILE.replace("30 mL", "28 mL"));
    host.wire.tell(BenchOnTheWire.TOPICS.setup(), bench.setup());
    browser.awaitText("main", "The bench file has changed while you wrote");
    browser.tap("button.main");
    browser.awaitText(".says .go", "28 mL → 20 mL");
  }
}
