package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import dev.cupwarden.host.store.Era;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;

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
    Instant time = parser.hasToken(JsonToken.VALUE_STRING) ? parsed(parser.getText()) : null;
    if (time == null) {
      return context.reportInputMismatch(this, "expected a time such as 2027-02-14T08:00:00Z");
    }
    if (!Era.holds(time)) {
      return context.reportInputMismatch(
          this, "expected a time from %s to %s", Era.EARLIEST, Era.LATEST);
    }
    return time;
  }

  /** Null if it is not a time. */
  private static Instant parsed(String text) {
    try {
      return OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeException notATime) {
      return null;
    }
  }
}
