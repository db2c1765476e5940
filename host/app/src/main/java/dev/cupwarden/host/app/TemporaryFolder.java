package dev.cupwarden.host.app;

import dev.cupwarden.host.HostException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** A folder of the machine's temporary ones that is removed with all that is in it. */
final class TemporaryFolder implements AutoCloseable {
  private final Path path;

  TemporaryFolder() {
    try {
      path = Files.createTempDirectory("cupwarden-demo-");
    } catch (IOException failed) {
      throw new HostException("No folder can be made among this machine's temporary ones.", failed);
    }
  }

  Path path() {
    return path;
  }

  @Override
  public void close() throws IOException {
    try (Stream<Path> tree = Files.walk(path)) {
      List<Path> deepestFirst = tree.sorted(Comparator.reverseOrder()).toList();
      for (Path each : deepestFirst) {
        Files.deleteIfExists(each);
      }
    }
  }
}
