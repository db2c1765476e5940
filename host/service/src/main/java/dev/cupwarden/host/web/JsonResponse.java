package dev.cupwarden.host.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Answers in JSON. */
final class JsonResponse {
  private static final Logger LOG = LoggerFactory.getLogger(JsonResponse.class);
  private static final String JSON = "application/json";
  private static final long MOST_REST_BYTES = 4 << 20;

  private JsonResponse() {}

  static void json(Context context, Object body) {
    try {
      context.contentType(JSON).result(Json.MAPPER.writeValueAsBytes(body));
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("an answer cannot be written", impossible);
    }
  }

  static void error(Context context, HttpStatus status, String sentence) {
    takeRest(context);
    context.status(status);
    json(context, Json.MAPPER.createObjectNode().put("error", sentence));
  }

  /**
   * Takes in what a refused request still brings: a connection closed on bytes that nobody read is
   * reset, and the answer is lost with it (RFC 9112, 9.6). It has an end, as an upload may have
   * none.
   */
  private static void takeRest(Context context) {
    try {
      context.req().getInputStream().skip(MOST_REST_BYTES);
    } catch (IOException gone) {
      LOG.debug("{} {}: its rest never came", context.method(), context.path(), gone);
    }
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
