package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import com.fasterxml.jackson.dataformat.cbor.databind.CBORMapper;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.state.BenchState;
import java.io.IOException;
import java.time.Instant;

/**
 * How a state is written into the journal: CBOR (RFC 8949) with the names that our JSON has, a name
 * that repeats told once (its tag 25). Every number comes back bit for bit.
 */
final class Cbor {
  static final ObjectMapper MAPPER =
      Json.configured(
              CBORMapper.builder(
                      CBORFactory.builder()
                          .enable(CBORGenerator.Feature.STRINGREF)
                          .enable(CBORGenerator.Feature.WRITE_MINIMAL_DOUBLES)
                          .build())
                  .disable(SerializationFeature.FLUSH_AFTER_WRITE_VALUE))
          .registerModule(new SimpleModule().addSerializer(Instant.class, new Times()));

  private Cbor() {}

  /** A whole state. */
  static byte[] written(BenchState state) {
    try {
      return MAPPER.writeValueAsBytes(state);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a state cannot be written", e);
    }
  }

  /**
   * A whole state.
   *
   * @throws JournalException when this program does not understand it
   */
  static BenchState read(byte[] state) throws JournalException {
    try {
      JsonNode bench = MAPPER.readTree(state);
      FlatState.benchIntoRooms(bench);
      return MAPPER.treeToValue(bench, BenchState.class);
    } catch (IOException e) {
      throw JournalException.unreadableState(e);
    }
  }

  /** A time as seconds of the epoch where it is a whole second, as most are; else as text. */
  static void writeTime(Instant at, JsonGenerator to) throws IOException {
    if (at == null) {
      to.writeNull();
    } else if (at.getNano() == 0) {
      to.writeNumber(at.getEpochSecond());
    } else {
      to.writeString(at.toString());
    }
  }

  private static final class Times extends StdSerializer<Instant> {
    private static final long serialVersionUID = 1L;

    Times() {
      super(Instant.class);
    }

    @Override
    public void serialize(Instant at, JsonGenerator to, SerializerProvider provider)
        throws IOException {
      writeTime(at, to);
    }
  }
}
