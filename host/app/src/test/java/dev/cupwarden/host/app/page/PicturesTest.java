package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.awt.image.DataBuffer;
import java.awt.image.IndexColorModel;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Dimension;

/**
 * Pictures for the README, small enough to be kept: {@code target/screenshots/readme/}. Those in
 * {@code host/pictures} are copies.
 */
class PicturesTest {
  private static final Path FOLDER = Path.of("target", "screenshots", "readme");
  private static final Dimension SIZE = new Dimension(1160, 900);
  private static final int MOST_BYTES = 120_000;
  private static final int COLOURS = 256;
  private static final String PAINTED =
      "const canvas = document.querySelector('main canvas');"
          + " return !!canvas && canvas.getContext('2d')"
          + ".getImageData(0, 0, canvas.width, canvas.height).data.some(part => part > 0);";
  private static Browser browser;
  private static StubHost host;

  @BeforeAll
  static void open() throws IOException {
    Files.createDirectories(FOLDER);
    host = StubHost.troubled();
    host.alerts.removeIf(alert -> alert.cup() == null); // Its tank is not low but canned so.
    host.runsWithout = List.of();
    browser = new Browser();
    browser.size(SIZE).scheme("light");
  }

  @AfterAll
  static void close() {
    browser.close();
    host.close();
  }

  @Test
  void theBench() throws IOException {
    browser.open(host.address());
    browser.awaitText("h1", "3 cups need a look.");
    browser.await(
        "weights are drawn",
        () ->
            Boolean.TRUE.equals(
                browser.run("return document.querySelectorAll('.s-curve[d]').length >= 9")));
    hear();
    write("bench", 0, 900);
  }

  @Test
  void aCup() throws IOException {
    browser.open(host.address() + "#/attic/cup/A8");
    browser.awaitText("p[role=status]", "Between ");
    browser.awaitText(".course + p", "mS/cm");
    hear();
    write("cup", 0, 1080);
  }

  @Test
  void dryDowns() throws IOException {
    browser.open(host.address() + "#/attic/dry-downs/A7,A8");
    browser.awaitText(".says", "whether it drinks more or less than before");
    hear();
    browser.await("the curves are painted", () -> Boolean.TRUE.equals(browser.run(PAINTED)));
    write("dry-downs", 0, 860);
  }

  /** A word from the bench, so that the age of what is seen is told. */
  private static void hear() {
    browser.await("the page listens", host::isHeard);
    host.send("bench", Map.of("bench", StubHost.BENCH, "status", host.status()));
    browser.awaitText("#age", "heard");
  }

  private static void write(String name, int top, int height) throws IOException {
    byte[] seen = browser.picture(top, SIZE.width, height);
    BufferedImage picture = ImageIO.read(new ByteArrayInputStream(seen));
    Path file = FOLDER.resolve(name + ".png");
    ImageWriter writer = ImageIO.getImageWritersByFormatName("png").next();
    ImageWriteParam smallest = writer.getDefaultWriteParam();
    smallest.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
    smallest.setCompressionQuality(0);
    Files.deleteIfExists(file);
    try (ImageOutputStream out = ImageIO.createImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      writer.write(null, new IIOImage(inFewColours(picture), null, null), smallest);
    } finally {
      writer.dispose();
    }
    assertTrue(Files.size(file) <= MOST_BYTES, name + ": " + Files.size(file) + " bytes");
  }

  /** The picture in its most frequent colours, every other one as the nearest of these. */
  private static BufferedImage inFewColours(BufferedImage picture) {
    int[] pixels =
        picture.getRGB(0, 0, picture.getWidth(), picture.getHeight(), null, 0, picture.getWidth());
    Map<Integer, Integer> counts = new HashMap<>();
    for (int pixel : pixels) {
      counts.merge(pixel, 1, Integer::sum);
    }
    List<Integer> kept =
        counts.entrySet().stream()
            .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
            .limit(COLOURS)
            .map(Map.Entry::getKey)
            .toList();
    int[] palette = kept.stream().mapToInt(Integer::intValue).toArray();
    IndexColorModel model =
        new IndexColorModel(8, palette.length, palette, 0, false, -1, DataBuffer.TYPE_BYTE);
    BufferedImage few =
        new BufferedImage(
            picture.getWidth(), picture.getHeight(), BufferedImage.TYPE_BYTE_INDEXED, model);
    Map<Integer, Integer> nearest = new HashMap<>();
    int[] indexes = new int[pixels.length];
    for (int i = 0; i < pixels.length; i++) {
      indexes[i] = nearest.computeIfAbsent(pixels[i], each -> nearestOf(palette, each));
    }
    few.getRaster().setPixels(0, 0, picture.getWidth(), picture.getHeight(), indexes);
    return few;
  }

  private static int nearestOf(int[] palette, int colour) {
    int nearest = 0;
    for (int i = 1; i < palette.length; i++) {
      if (distance(palette[i], colour) < distance(palette[nearest], colour)) {
        nearest = i;
      }
    }
    return nearest;
  }

  private static int distance(int one, int other) {
    int sum = 0;
    for (int shift = 0; shift <= 16; shift += 8) {
      int apart = (one >> shift & 0xff) - (other >> shift & 0xff);
      sum += apart * apart;
    }
    return sum;
  }
}
