package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;

/** Notes and photos of a cup on a real host: kept, seen week beside week, deleted. */
class NotesPageTest {
  @AutoClose private static final Browser browser = new Browser().scheme("light");

  @TempDir Path data;
  @TempDir Path pictures;
  private RealHost host;

  @BeforeEach
  void startHost() throws Exception {
    host = new RealHost(data, StubHost.unserved(3));
  }

  @AfterEach
  void stop() throws Exception {
    assertEquals(List.of(), browser.consoleErrors());
    host.close();
  }

  /** Larger than what is kept. */
  private Path picture(String name, Color colour) throws IOException {
    BufferedImage drawn = new BufferedImage(2400, 1800, BufferedImage.TYPE_INT_RGB);
    Graphics2D pen = drawn.createGraphics();
    pen.setColor(colour);
    pen.fillRect(0, 0, 2400, 1800);
    pen.dispose();
    Path file = pictures.resolve(name);
    ImageIO.write(drawn, "jpeg", file.toFile());
    return file;
  }

  private void seenOn(String day) {
    browser.run(
        "const day = document.querySelector('.notes input[type=date]'); day.value = arguments[0]",
        day);
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void noteIsWrittenByKeyboardAndDeletedAgain(Dimension screen) throws Exception {
    browser.size(screen).open(host.address() + "#/attic/cup/A1");
    browser.awaitText(".notes", "No note of this cup yet.");
    browser.tabTo(".notes textarea");
    browser.press("Two white tips at the wall.");
    browser.tabTo(".notes button.main");
    browser.press(Keys.ENTER);
    browser.awaitText(".notes .says", "Two white tips at the wall.");
    browser.awaitText(".notes .says", "by page");
    JsonNode kept = host.json("api/benches/attic/cups/A1/notes").get(0);
    assertEquals("2027-02-14", kept.get("day").asText());
    assertEquals(false, kept.get("photo").asBoolean());
    browser.tap(".notes li button");
    browser.awaitText(".notes", "No note of this cup yet.");
    assertEquals(0, host.json("api/benches/attic/cups/A1/notes").size());
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void photosStandWeekBesideWeekAndAreMadeSmall(Dimension screen) throws Exception {
    browser.size(screen).open(host.address() + "#/attic/cup/A1");
    browser.awaitText(".notes", "No note of this cup yet.");
    seenOn("2027-02-03");
    browser.find(".notes input[type=file]").sendKeys(picture("one.jpg", Color.GREEN).toString());
    browser.tap(".notes button.main");
    browser.await("a photo is kept", () -> browser.textsOf(".weeks figure").size() == 1);
    seenOn("2027-02-12");
    browser
        .find(".notes input[type=file]")
        .sendKeys(picture("two.jpg", Color.WHITE) + "\n" + picture("three.jpg", Color.ORANGE));
    browser.tap(".notes button.main");
    browser.await("two more are kept", () -> browser.textsOf(".weeks figure").size() == 3);
    assertEquals(2, browser.textsOf(".weeks section").size(), "weeks");
    JsonNode notes = host.json("api/benches/attic/cups/A1/notes");
    BufferedImage kept =
        ImageIO.read(
            new ByteArrayInputStream(
                host.bytes("api/benches/attic/cups/A1/photos/" + notes.get(0).get("id").asText())));
    assertEquals(1280, kept.getWidth());
    browser.run("document.querySelector('.weeks').scrollIntoView()");
    browser.await(
        "the photos are drawn",
        () ->
            Boolean.TRUE.equals(
                browser.run(
                    "return [...document.querySelectorAll('.weeks img')]"
                        + ".some(img => img.naturalWidth === 1280)")));
    browser.assertAccessible("notes-" + screen.width);
    browser.screenshot("notes-" + screen.width);
    assertTrue(
        browser.textsOf(".notes a").contains("Its dry-downs, week by week"),
        "beside the dry-downs");
  }
}
