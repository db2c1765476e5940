package dev.cupwarden.core.house;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The files that this program is made of, without what is built or hidden. */
public final class SourceTree {
  public static final Path ROOT = root();

  private SourceTree() {}

  /** All whose names end so, in order. */
  public static List<Path> files(String ending) {
    try (Stream<Path> files = Files.walk(ROOT)) {
      return files
          .filter(path -> path.toString().endsWith(ending))
          .filter(path -> !name(path).matches("(\\..*|.*/target/.*|target/.*)"))
          .sorted()
          .toList();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  /** As a person would name it, from the top of the tree. */
  public static String name(Path file) {
    return ROOT.relativize(file).toString();
  }

  public static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  /** The README's first bench file, as a person types it off. */
  public static String firstBench() {
    String from = "This is a whole one:\n\n";
    String readme = text(ROOT.resolve("README.md"));
    return readme
        .substring(readme.indexOf(from) + from.length())
        .lines()
        .takeWhile(line -> line.startsWith("    "))
        .map(line -> line.substring(4) + "\n")
        .collect(Collectors.joining());
  }

  private static Path root() {
    Path folder = Path.of("").toAbsolutePath();
    while (!Files.exists(folder.resolve("LICENSE"))) {
      folder = folder.getParent();
    }
    return folder;
  }
}
