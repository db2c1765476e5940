package dev.cupwarden.host.web;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.review.DryDownPicture;
import dev.cupwarden.host.review.DryDowns;
import dev.cupwarden.host.review.Export;
import dev.cupwarden.host.store.Era;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.time.Instant;

/** What is stored, as files for other programs and as a picture. */
final class ExportRoutes {
  private static final int NOT_FOUND = 404;
  private static final int BAD_REQUEST = 400;
  private final Store store;

  ExportRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/exports/{file}", this::file);
    routes.get("/api/benches/{bench}/cups/{cup}/dry-downs.svg", this::picture);
  }

  private static Export.Asked asked(Context context) {
    Instant from = Asked.time(context, "from", Era.EARLIEST);
    Instant to = Asked.time(context, "to", Era.LATEST);
    if (!from.isBefore(to)) {
      throw new ApiException(BAD_REQUEST, "from: expected a time before to.");
    }
    return new Export.Asked(context.pathParam("bench"), from, to);
  }

  private void file(Context context) throws IOException {
    Export.Asked asked = asked(context);
    Export export =
        Export.named(context.pathParam("file"))
            .orElseThrow(
                () ->
                    new ApiException(
                        NOT_FOUND, "There is no such export: expected " + Export.names() + "."));
    if (store.benches().find(asked.bench()).isEmpty()) {
      throw new ApiException(NOT_FOUND, "There is no bench " + asked.bench() + " here.");
    }
    context.contentType(export.contentType() + "; charset=utf-8");
    context.header("Content-Disposition", "attachment; filename=\"" + export.fileName() + "\"");
    try (Writer out =
        new OutputStreamWriter(context.res().getOutputStream(), StandardCharsets.UTF_8)) {
      export.write(store, asked, out);
    }
  }

  private void picture(Context context) {
    String cup = context.pathParam("cup");
    try {
      String svg = DryDownPicture.of("Cup " + cup, DryDowns.of(store, asked(context), cup));
      context.contentType("image/svg+xml").result(svg);
    } catch (HostException none) {
      throw new ApiException(NOT_FOUND, none.getMessage());
    }
  }
}
