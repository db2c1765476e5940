package dev.cupwarden.host.review;

import dev.cupwarden.core.substrate.DryDown;
import dev.cupwarden.core.substrate.DryDownFit;
import dev.cupwarden.core.substrate.DryDownPoint;
import java.util.List;
import java.util.Locale;

/** Dry-downs laid over one another from the moment of watering, as SVG; the newest is darkest. */
public final class DryDownPicture {
  private static final double WIDTH = 800;
  private static final double HEIGHT = 480;
  private static final double MARGIN = 56;
  private static final int MOST_POINTS = 200;
  private static final int TICKS = 5;

  private final StringBuilder svg = new StringBuilder();
  private final double longestH;
  private final double leastG;
  private final double greatestG;

  private DryDownPicture(List<DryDown> dryDowns) {
    longestH = dryDowns.stream().mapToDouble(DryDown::hours).max().orElse(1);
    leastG = grams(dryDowns).min().orElse(0);
    double greatest = grams(dryDowns).max().orElse(1);
    greatestG = greatest > leastG ? greatest : leastG + 1;
  }

  private static java.util.stream.DoubleStream grams(List<DryDown> dryDowns) {
    return dryDowns.stream().flatMap(each -> each.points().stream()).mapToDouble(p -> p.grossG());
  }

  /** The whole picture, a document of its own. */
  public static String of(String title, List<DryDown> dryDowns) {
    return new DryDownPicture(dryDowns).drawn(title, dryDowns);
  }

  private String drawn(String title, List<DryDown> dryDowns) {
    add(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\" role=\"img\">\n",
        WIDTH, HEIGHT);
    svg.append("<title>").append(escaped(title)).append("</title>\n");
    svg.append("<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
    axes();
    for (int index = 0; index < dryDowns.size(); index++) {
      draw(dryDowns.get(index), (index + 1.0) / dryDowns.size());
    }
    return svg.append("</svg>\n").toString();
  }

  private void axes() {
    svg.append("<g font-family=\"sans-serif\" font-size=\"12\" fill=\"#333\" stroke=\"none\">\n");
    for (int tick = 0; tick <= TICKS; tick++) {
      double hours = longestH * tick / TICKS;
      double massG = leastG + (greatestG - leastG) * tick / TICKS;
      add(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\">%.0f h</text>\n",
          x(hours), HEIGHT - MARGIN / 2, hours);
      add(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">%.0f g</text>\n",
          MARGIN - 6, y(massG) + 4, massG);
    }
    svg.append("</g>\n");
    add(
        "<path d=\"M%.1f %.1fV%.1fH%.1f\" fill=\"none\" stroke=\"#999\"/>\n",
        MARGIN, MARGIN / 2, HEIGHT - MARGIN, WIDTH - MARGIN / 2);
  }

  private void draw(DryDown dryDown, double strength) {
    List<DryDownPoint> points = dryDown.points();
    int step = Math.max(1, points.size() / MOST_POINTS);
    add("<polyline fill=\"none\" stroke=\"#1b6e5a\" stroke-opacity=\"%.2f\" points=\"", strength);
    for (int index = 0; index < points.size(); index += step) {
      add("%.1f,%.1f ", x(points.get(index).time()), y(points.get(index).grossG()));
    }
    svg.append("\"/>\n");
    if (dryDown.fit() instanceof DryDownFit.Identified known) {
      add(
          "<polyline fill=\"none\" stroke=\"#a2470f\" stroke-dasharray=\"5 4\""
              + " stroke-opacity=\"%.2f\" points=\"",
          strength);
      for (int part = 0; part <= MOST_POINTS / 4; part++) {
        double hours = dryDown.hours() * 4 * part / MOST_POINTS;
        add("%.1f,%.1f ", x(hours), y(known.curve().massG(hours)));
      }
      svg.append("\"/>\n");
    }
  }

  private double x(double hours) {
    return MARGIN + hours / longestH * (WIDTH - 1.5 * MARGIN);
  }

  private double y(double massG) {
    double part = (massG - leastG) / (greatestG - leastG);
    return HEIGHT - MARGIN - part * (HEIGHT - 1.5 * MARGIN);
  }

  private void add(String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
