package dev.cupwarden.app.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.house.SourceTree;
import dev.cupwarden.core.setup.Bench;
import java.awt.geom.Rectangle2D;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** Drawings of the hardware notes: to be read on a telephone, and true to the example. */
class DrawingsTest {
  private static final Path NOTES = SourceTree.ROOT.resolve("hardware-notes");

  /** A telephone's width, in pixels of its own. */
  private static final double NARROW = 360;

  /** The least that is read without effort, in pixels; our choice. */
  private static final double LEAST_FONT = 11;

  /** A letter's mean width as a part of the font's size, on the wide side for a sans-serif. */
  private static final double LETTER = 0.55;

  private static List<Path> drawings() {
    return SourceTree.files(".svg").stream()
        .filter(file -> file.getParent().equals(NOTES))
        .toList();
  }

  private static Element root(Path drawing) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(drawing.toFile())
        .getDocumentElement();
  }

  private static Rectangle2D.Double box(Element text, double font) {
    double width = text.getTextContent().length() * font * LETTER;
    double x = Double.parseDouble(text.getAttribute("x"));
    double y = Double.parseDouble(text.getAttribute("y"));
    String anchor = text.getAttribute("text-anchor");
    double left = anchor.equals("end") ? x - width : anchor.equals("middle") ? x - width / 2 : x;
    return new Rectangle2D.Double(left, y - 0.8 * font, width, font);
  }

  @Test
  void captionsAreLegibleInsideAndApart() throws Exception {
    List<String> wrong = new ArrayList<>();
    for (Path drawing : drawings()) {
      Element svg = root(drawing);
      String[] view = svg.getAttribute("viewBox").split(" ");
      double width = Double.parseDouble(view[2]);
      double font = Double.parseDouble(svg.getAttribute("font-size"));
      String name = drawing.getFileName().toString();
      if (font * NARROW / width < LEAST_FONT) {
        wrong.add(name + ": letters of " + font * NARROW / width + " px on a telephone");
      }
      wrong.addAll(
          collisions(
              name,
              svg.getElementsByTagName("text"),
              font,
              new Rectangle2D.Double(0, 0, width, Double.parseDouble(view[3]))));
    }
    assertEquals(List.of(), wrong);
    assertTrue(drawings().size() >= 4, drawings()::toString);
  }

  private static List<String> collisions(
      String name, NodeList texts, double font, Rectangle2D.Double page) {
    List<String> wrong = new ArrayList<>();
    for (int i = 0; i < texts.getLength(); i++) {
      Element text = (Element) texts.item(i);
      Rectangle2D.Double box = box(text, font);
      if (!page.contains(box)) {
        wrong.add(name + ": \"" + text.getTextContent() + "\" leaves the drawing");
      }
      for (int j = 0; j < i; j++) {
        Element other = (Element) texts.item(j);
        if (box.intersects(box(other, font))) {
          wrong.add(
              "%s: \"%s\" on \"%s\""
                  .formatted(name, text.getTextContent(), other.getTextContent()));
        }
      }
    }
    return wrong;
  }

  @Test
  void theWatersWayHasTheExamplesVolumes() {
    Bench bench = BackRoom.bench();
    String water = SourceTree.text(NOTES.resolve("water.svg"));
    bench
        .tanks()
        .forEach(
            (name, tank) ->
                assertTrue(
                    water.contains(">%s, %.0f L<".formatted(name, tank.sizeMl() / 1000)), name));
    assertTrue(water.contains(" %.0f L<".formatted(bench.tanksMl() / 1000)), "the tray");
    assertTrue(
        water.contains(
            String.format(Locale.ROOT, "shared hose, %.1f mL<", bench.hose().volumeMl())));
  }
}
