package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import dev.cupwarden.app.ControllerCommand;
import dev.cupwarden.core.house.SourceTree;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

/** What the pages for people promise: links lead somewhere, commands and tests are there. */
class DocsTest {
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)#]*)(#[^)]*)?\\)");
  private static final Pattern COMMAND =
      Pattern.compile("java -jar \\S*?(cupwarden-controller|cupwarden-host)\\.jar ([^`\\n]*)");
  private static final Pattern TEST = Pattern.compile("`([A-Z]\\w+(?:Test|IT))(?:\\.(\\w+))?`");

  @Test
  void linksLeadSomewhere() {
    List<String> broken = new ArrayList<>();
    for (Path page : files(".md")) {
      for (MatchResult link : all(LINK, page)) {
        Path target = page;
        if (!link.group(1).isEmpty()) {
          target = page.resolveSibling(link.group(1)).normalize();
        }
        boolean there = link.group(1).contains("://") || Files.exists(target);
        if (there && link.group(2) != null) {
          there = anchors(target).contains(link.group(2));
        }
        if (!there) {
          broken.add(SourceTree.name(page) + ": " + link.group());
        }
      }
    }
    assertEquals(List.of(), broken);
  }

  private static List<String> anchors(Path page) {
    return SourceTree.text(page)
        .lines()
        .filter(line -> line.startsWith("#"))
        .map(line -> line.replaceFirst("^#+ *", "").toLowerCase(java.util.Locale.ROOT))
        .map(title -> "#" + title.replaceAll("[^a-z0-9 -]", "").replace(' ', '-'))
        .toList();
  }

  @Test
  void drawingsAreWellFormedAndSayWhatTheyShow() throws Exception {
    List<Path> drawings = files(".svg");
    assertFalse(drawings.isEmpty());
    for (Path drawing : drawings) {
      var svg = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(drawing.toFile());
      assertEquals(1, svg.getElementsByTagName("title").getLength(), drawing::toString);
      assertEquals(1, svg.getElementsByTagName("desc").getLength(), drawing::toString);
    }
  }

  @Test
  void commandsAndTheirOptionsAreThere() {
    Map<String, CommandLine> programs =
        Map.of(
            "cupwarden-controller", ControllerCommand.commandLine(),
            "cupwarden-host", HostCommand.commandLine());
    List<String> wrong = new ArrayList<>();
    int seen = 0;
    for (Path page : files(".md")) {
      for (MatchResult command : all(COMMAND, page)) {
        seen++;
        String[] words = command.group(2).replaceAll("[<|>#].*|&&.*", "").strip().split(" +");
        try {
          programs.get(command.group(1)).parseArgs(words);
        } catch (CommandLine.ParameterException unknown) {
          wrong.add(
              SourceTree.name(page) + ": " + Arrays.asList(words) + ": " + unknown.getMessage());
        }
      }
    }
    assertEquals(List.of(), wrong);
    assertFalse(seen == 0);
  }

  @Test
  void testsThatAreNamedAreThere() {
    Map<String, String> tests =
        sources().stream()
            .collect(
                Collectors.toMap(
                    path -> path.getFileName().toString().replace(".java", ""),
                    SourceTree::text,
                    (one, other) -> one + other));
    List<String> missing = new ArrayList<>();
    for (Path page : files(".md")) {
      for (MatchResult test : all(TEST, page)) {
        String source = tests.get(test.group(1));
        boolean there =
            source != null
                && (test.group(2) == null || source.contains("void " + test.group(2) + "("));
        if (!there) {
          missing.add(SourceTree.name(page) + ": " + test.group());
        }
      }
    }
    assertEquals(List.of(), missing);
  }

  private static List<MatchResult> all(Pattern pattern, Path page) {
    return pattern.matcher(SourceTree.text(page)).results().toList();
  }

  private static List<Path> sources() {
    return files(".java").stream().filter(path -> path.toString().contains("/src/test/")).toList();
  }

  private static List<Path> files(String ending) {
    return SourceTree.files(ending).stream()
        .filter(path -> !path.toString().contains("/src/main/"))
        .toList();
  }
}
