package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import dev.cupwarden.host.store.Era;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;

/**
 * Reads a time as the wire has it: text after RFC 3339, within the {@link Era}. A number is
 * refused, of which nobody knows whether it counts seconds, and of which a library makes 1970 where
 * it is too large.
 */
final class StrictTime extends StdScalarDeserializer<Instant> {
  private static final long serialVersionUID = 1L;

  StrictTime() {
    super(Instant.class);
  }

  @Override
  public Instant deserialize(JsonParser parser, DeserializationContext context) throws IOException {
    if (!parser.hasToken(JsonToken.VALUE_STRING)) {
      return context.reportInputMismatch(this, Era.EXPECTED);
    }
    try {
      return Era.read(parser.getText());
    } catch (DateTimeException wrong) {
      return context.reportInputMismatch(this, "%s", wrong.getMessage());
    }
  }
}
