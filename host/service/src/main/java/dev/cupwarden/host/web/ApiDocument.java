package dev.cupwarden.host.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

/** The OpenAPI 3.1 document of this server, as it is in the program. */
final class ApiDocument {
  private static final String FILE = "openapi.json";

  void add(RoutesConfig routes) {
    routes.get("/api/openapi.json", ApiDocument::answer);
  }

  private static void answer(Context context) {
    context.contentType("application/json").result(bytes());
  }

  static byte[] bytes() {
    try (InputStream stream = ApiDocument.class.getResourceAsStream(FILE)) {
      if (stream == null) {
        throw new IllegalStateException(FILE + " is missing from this program");
      }
      return stream.readAllBytes();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
