package dev.cupwarden.host.app.page;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;

/** What the page with all its views and its library weighs on the wire. */
final class PageWeight {
  private static final Path PAGE =
      Path.of("..", "service", "src", "main", "resources", "dev", "cupwarden", "host", "page");
  private static final List<String> LIBRARY = List.of("uPlot.esm.js", "uPlot.min.css");

  private PageWeight() {}

  /** Bytes, each file compressed by itself. */
  static long bytes() throws IOException {
    long bytes = 0;
    try (Stream<Path> files = Files.walk(PAGE)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        bytes += compressed(Files.readAllBytes(file));
      }
    }
    for (String file : LIBRARY) {
      String path = "/META-INF/resources/webjars/uplot/1.6.30/dist/" + file;
      try (InputStream stream = PageWeight.class.getResourceAsStream(path)) {
        bytes += compressed(stream.readAllBytes());
      }
    }
    return bytes;
  }

  private static long compressed(byte[] bytes) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
      gzip.write(bytes);
    }
    return out.size();
  }
}
