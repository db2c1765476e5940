package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonMappingException;
import java.util.stream.Collectors;

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
        text.startsWith("Cannot map `null`")
            ? "is missing"
            : text.lines()
                .findFirst()
                .orElse("not JSON")
                .replaceAll("`?(?:[a-z]\\w*\\.)+([A-Z][\\w$]*)`?", "$1");
    String whole = where(complaint) + line;
    return whole.length() <= MOST_CHARS ? whole : whole.substring(0, MOST_CHARS);
  }

  private static String where(Exception complaint) {
    if (!(complaint instanceof JsonMappingException mapping) || mapping.getPath().isEmpty()) {
      return "";
    }
    return mapping.getPath().stream()
            .map(step -> step.getFieldName() == null ? "" + step.getIndex() : step.getFieldName())
            .collect(Collectors.joining("."))
        + ": ";
  }
}
