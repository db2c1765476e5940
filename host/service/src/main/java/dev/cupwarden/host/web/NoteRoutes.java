package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.host.store.Notes.NoteRow;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.Base64;
import java.util.Optional;
import java.util.UUID;

/** Notes and photos of a cup, which people keep beside what is measured. */
final class NoteRoutes {
  private static final int MOST_WORDS = 1000;

  /** A photo in base64, and the rest. */
  private static final int MOST_BYTES = PlainPhoto.MOST_BYTES * 4 / 3 + 8192;

  private final Store store;
  private final InstantSource clock;

  NoteRoutes(Store store, InstantSource clock) {
    this.store = store;
    this.clock = clock;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/cups/{cup}/notes", this::notes);
    routes.post("/api/benches/{bench}/cups/{cup}/notes", this::note);
    routes.get("/api/benches/{bench}/cups/{cup}/photos/{note}", this::photo);
    routes.delete("/api/benches/{bench}/cups/{cup}/notes/{note}", this::delete);
  }

  private void notes(Context context) {
    String bench = RequestParameters.bench(context, store);
    ArrayNode all = Json.MAPPER.createArrayNode();
    store
        .notes()
        .find(bench, Optional.of(context.pathParam("cup")))
        .forEach(note -> all.add(told(note)));
    JsonResponse.json(context, all);
  }

  private static ObjectNode told(NoteRow note) {
    return Json.MAPPER
        .createObjectNode()
        .put("id", note.id())
        .put("at", note.at().toString())
        .put("day", note.day())
        .put("stage", note.stage())
        .put("by", note.by())
        .put("words", note.words())
        .put("photo", note.hasPhoto());
  }

  private void note(Context context) {
    String bench = RequestParameters.bench(context, store);
    String cup = context.pathParam("cup");
    if (!Names.isSafe(cup)) {
      throw wrong("cup: " + Names.RULE + ".");
    }
    JsonNode written = body(context);
    String words = written.path("words").asText("").strip();
    Optional<String> photo = photo(written.path("photo"));
    if (words.length() > MOST_WORDS || (words.isEmpty() && photo.isEmpty())) {
      throw wrong("words: expected 1 to " + MOST_WORDS + " characters, or a photo.");
    }
    NoteRow note =
        new NoteRow(
            bench,
            cup,
            "n-" + UUID.randomUUID(),
            clock.instant(),
            day(written.path("day").asText()),
            stage(written.path("stage").asText()),
            Caller.nameOf(context),
            words,
            photo.isPresent());
    store
        .notes()
        .add(note, photo)
        .ifPresent(
            why -> {
              throw new ApiException(HttpStatus.CONFLICT, why);
            });
    JsonResponse.json(context, told(note));
  }

  private static ApiException wrong(String sentence) {
    return new ApiException(HttpStatus.BAD_REQUEST, sentence);
  }

  /** Read piece by piece, as no other request is so large. */
  private static JsonNode body(Context context) {
    try {
      byte[] read = context.bodyInputStream().readNBytes(MOST_BYTES + 1);
      if (read.length > MOST_BYTES) {
        throw new ApiException(
            HttpStatus.CONTENT_TOO_LARGE,
            "photo: at most " + PlainPhoto.MOST_BYTES / 1024 + " KiB.");
      }
      return RequestParameters.json(
          new String(read, StandardCharsets.UTF_8), "A note is a JSON object");
    } catch (IOException cut) {
      throw wrong("The request's body is cut short: " + cut.getMessage() + ".");
    }
  }

  private static Optional<String> photo(JsonNode written) {
    if (!written.isTextual()) {
      return Optional.empty();
    }
    try {
      byte[] picture = Base64.getDecoder().decode(written.textValue());
      return Optional.of(Base64.getEncoder().encodeToString(PlainPhoto.of(picture)));
    } catch (IllegalArgumentException notBase64) {
      throw wrong("photo: expected base64: " + notBase64.getMessage() + ".");
    } catch (IOException noPicture) {
      throw wrong(noPicture.getMessage());
    }
  }

  private static String day(String text) {
    try {
      return LocalDate.parse(text).toString();
    } catch (DateTimeException noDay) {
      throw wrong("day: expected a day such as 2027-02-14.");
    }
  }

  private static String stage(String word) {
    return RootStage.of(word)
        .map(RootStage::word)
        .orElseThrow(() -> wrong("stage: expected struck, white, toughened or circling."));
  }

  private void photo(Context context) {
    String bench = RequestParameters.bench(context, store);
    String photo =
        store
            .notes()
            .photo(bench, context.pathParam("cup"), context.pathParam("note"))
            .orElseThrow(() -> new ApiException(HttpStatus.NOT_FOUND, "There is no such photo."));
    context
        .contentType("image/jpeg")
        .header("Cache-Control", "private, max-age=31536000, immutable");
    context.result(Base64.getDecoder().decode(photo));
  }

  private void delete(Context context) {
    String bench = RequestParameters.bench(context, store);
    if (!store.notes().delete(bench, context.pathParam("cup"), context.pathParam("note"))) {
      throw new ApiException(HttpStatus.NOT_FOUND, "There is no such note.");
    }
    JsonResponse.json(context, Json.MAPPER.createObjectNode());
  }
}
