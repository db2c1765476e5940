import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Element;

/** Adds up what surefire and failsafe reported in all modules, and prints one line. */
public class Tally {
  public static void main(String[] args) throws Exception {
    int ran = 0;
    int failed = 0;
    int skipped = 0;
    List<Path> reports;
    try (Stream<Path> files = Files.walk(Path.of(args[0]))) {
      reports = files.filter(Tally::isReport).toList();
    }
    for (Path report : reports) {
      Element suite =
          DocumentBuilderFactory.newInstance()
              .newDocumentBuilder()
              .parse(report.toFile())
              .getDocumentElement();
      ran += number(suite, "tests") - number(suite, "skipped");
      failed += number(suite, "failures") + number(suite, "errors");
      skipped += number(suite, "skipped");
    }
    System.out.printf("%d passed, %d failed, %d skipped%n", ran - failed, failed, skipped);
  }

  private static boolean isReport(Path path) {
    String name = path.toString();
    return name.matches(".*(surefire|failsafe)-reports" + File.separator + "TEST-.*\\.xml");
  }

  private static int number(Element suite, String attribute) {
    return Integer.parseInt(suite.getAttribute(attribute));
  }
}
