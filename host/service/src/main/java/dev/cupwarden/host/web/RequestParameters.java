package dev.cupwarden.host.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.review.Export;
import dev.cupwarden.host.store.Era;
import dev.cupwarden.host.store.Store;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.DateTimeException;
import java.time.Instant;

/** Reads the parameters of a request, or says in a sentence what is wrong with them. */
final class RequestParameters {
  private static final int LONGEST = 64;

  private RequestParameters() {}

  /** The bench in the path, if the host has heard of it. */
  static String bench(Context context, Store store) {
    String bench = context.pathParam("bench");
    if (store.benches().find(bench).isEmpty()) {
      throw new ApiException(HttpStatus.NOT_FOUND, "There is no bench " + bench + " here.");
    }
    return bench;
  }

  /** How the bench in the path is set up, as JSON, if it has told. */
  static String setup(Context context, Store store) {
    String bench = bench(context, store);
    return store
        .setups()
        .find(bench)
        .orElseThrow(
            () ->
                new ApiException(
                    HttpStatus.NOT_FOUND, "Bench " + bench + " has not told how it is set up."));
  }

  /**
   * The body of a request as JSON, or what was expected and why that is none.
   *
   * @param expected begins the sentence, such as "An order is a JSON object"
   */
  static JsonNode json(String body, String expected) {
    try {
      return Json.MAPPER.readTree(body);
    } catch (JsonProcessingException broken) {
      throw new ApiException(
          HttpStatus.BAD_REQUEST, expected + ": " + broken.getOriginalMessage() + ".");
    }
  }

  /** A time in the query, or the one to take where there is none. */
  static Instant time(Context context, String name, Instant otherwise) {
    String text = context.queryParam(name);
    if (text == null) {
      return otherwise;
    }
    try {
      return Era.read(text);
    } catch (DateTimeException wrong) {
      throw new ApiException(HttpStatus.BAD_REQUEST, name + ": " + wrong.getMessage() + ".");
    }
  }

  /** The bench in the path, from and to in the query; all of time where they are not there. */
  static Export.Asked span(Context context) {
    Instant from = time(context, "from", Era.EARLIEST);
    Instant to = time(context, "to", Era.LATEST);
    requireOrder(from, to);
    return new Export.Asked(context.pathParam("bench"), from, to);
  }

  /** Refuses a span that ends before it begins. */
  static void requireOrder(Instant from, Instant to) {
    if (!from.isBefore(to)) {
      throw new ApiException(HttpStatus.BAD_REQUEST, "from: expected a time before to.");
    }
  }

  /** A name in the query, or null. */
  static String name(Context context, String name) {
    String text = context.queryParam(name);
    if (text != null && !isName(text)) {
      throw new ApiException(
          HttpStatus.BAD_REQUEST,
          name + ": expected 1 to " + LONGEST + " characters, none of them a control character.");
    }
    return text;
  }

  private static boolean isName(String text) {
    return !text.isEmpty()
        && text.length() <= LONGEST
        && text.chars().noneMatch(Character::isISOControl);
  }

  /** A number in the query. */
  static double number(Context context, String name) {
    String text = context.queryParam(name);
    try {
      double number = text == null ? Double.NaN : Double.parseDouble(text);
      if (Double.isFinite(number)) {
        return number;
      }
    } catch (NumberFormatException notANumber) {
      throw new ApiException(HttpStatus.BAD_REQUEST, name + ": expected a number.");
    }
    throw new ApiException(HttpStatus.BAD_REQUEST, name + ": expected a number.");
  }

  /** How many, from 1 to the most. */
  static int limit(Context context, int otherwise, int most) {
    String text = context.queryParam("limit");
    if (text == null) {
      return otherwise;
    }
    try {
      int limit = Integer.parseInt(text);
      if (limit >= 1 && limit <= most) {
        return limit;
      }
    } catch (NumberFormatException notANumber) {
      throw new ApiException(
          HttpStatus.BAD_REQUEST, "limit: expected a whole number from 1 to " + most + ".");
    }
    throw new ApiException(
        HttpStatus.BAD_REQUEST, "limit: expected a whole number from 1 to " + most + ".");
  }
}
