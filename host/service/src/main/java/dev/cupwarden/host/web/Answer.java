package dev.cupwarden.host.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import io.javalin.http.Context;

/** Answers in JSON. */
final class Answer {
  private static final String JSON = "application/json";

  private Answer() {}

  static void json(Context context, Object body) {
    try {
      context.contentType(JSON).result(Json.MAPPER.writeValueAsBytes(body));
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("an answer cannot be written", impossible);
    }
  }

  static void error(Context context, int status, String sentence) {
    context.status(status);
    json(context, Json.MAPPER.createObjectNode().put("error", sentence));
  }

  /** JSON from the store, which has been read strictly before it was written there. */
  static JsonNode stored(String json) {
    try {
      return Json.MAPPER.readTree(json);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not JSON", damaged);
    }
  }
}
