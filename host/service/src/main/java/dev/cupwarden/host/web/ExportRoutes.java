package dev.cupwarden.host.web;

import dev.cupwarden.host.review.Export;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;

/** What is stored, as files for other programs. */
final class ExportRoutes {
  private final Store store;

  ExportRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/exports/{file}", this::file);
  }

  private void file(Context context) throws IOException {
    Export.Asked asked = RequestParameters.span(context);
    Export export =
        Export.named(context.pathParam("file"))
            .orElseThrow(
                () ->
                    new ApiException(
                        HttpStatus.NOT_FOUND,
                        "There is no such export: expected " + Export.names() + "."));
    if (store.benches().find(asked.bench()).isEmpty()) {
      throw new ApiException(HttpStatus.NOT_FOUND, "There is no bench " + asked.bench() + " here.");
    }
    context.contentType(export.contentType() + "; charset=utf-8");
    context.header("Content-Disposition", "attachment; filename=\"" + export.fileName() + "\"");
    try (Writer out =
        new OutputStreamWriter(context.res().getOutputStream(), StandardCharsets.UTF_8)) {
      export.write(store, asked, out);
    }
  }
}
