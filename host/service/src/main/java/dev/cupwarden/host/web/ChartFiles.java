package dev.cupwarden.host.web;

import dev.cupwarden.host.HostException;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.InputStream;
import java.util.Map;
import java.util.Properties;

/** The chart library's files, from the jar in which it comes; only those a page can need. */
final class ChartFiles {
  private static final String VERSION = "META-INF/maven/org.webjars.npm/uplot/pom.properties";
  private static final String FOLDER = "META-INF/resources/webjars/uplot/%s/dist/%s";
  private static final Map<String, String> TYPES =
      Map.of(
          "uPlot.esm.js", "text/javascript",
          "uPlot.iife.min.js", "text/javascript",
          "uPlot.min.css", "text/css");

  private final String version = version();

  void add(RoutesConfig routes) {
    routes.get("/lib/uplot/{file}", this::file);
  }

  private void file(Context context) {
    String file = context.pathParam("file");
    String type = TYPES.get(file);
    if (type == null) {
      throw new ApiException(HttpStatus.NOT_FOUND, "There is nothing at " + context.path() + ".");
    }
    try (InputStream stream = open(FOLDER.formatted(version, file))) {
      context.contentType(type).result(stream.readAllBytes());
    } catch (IOException broken) {
      throw new IllegalStateException("the charts cannot be read", broken);
    }
  }

  private static String version() {
    Properties properties = new Properties();
    try (InputStream stream = open(VERSION)) {
      properties.load(stream);
      return properties.getProperty("version");
    } catch (IOException broken) {
      throw new HostException("The charts of the page cannot be read.", broken);
    }
  }

  private static InputStream open(String resource) {
    InputStream stream = ChartFiles.class.getClassLoader().getResourceAsStream(resource);
    if (stream == null) {
      throw new HostException("The charts of the page are missing from this program.");
    }
    return stream;
  }
}
