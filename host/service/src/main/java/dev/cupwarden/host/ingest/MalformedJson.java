package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;

/**
 * What a JSON library complains of, as a short sentence without class names and source excerpts.
 */
final class MalformedJson {
  private static final int MOST_CHARS = 200;

  private MalformedJson() {}

  static String sentence(Exception complaint) {
    String text =
        complaint instanceof JsonProcessingException json
            ? json.getOriginalMessage()
            : String.valueOf(complaint.getMessage());
    String line =
        text.lines()
            .findFirst()
            .orElse("not JSON")
            .replaceAll("`?(?:[a-z][\\w]*\\.)+([A-Z][\\w$]*)`?", "$1");
    return line.length() <= MOST_CHARS ? line : line.substring(0, MOST_CHARS);
  }
}
