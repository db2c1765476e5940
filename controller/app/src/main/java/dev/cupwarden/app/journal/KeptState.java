package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import com.fasterxml.jackson.dataformat.cbor.databind.CBORMapper;
import dev.cupwarden.core.BenchState;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;

/**
 * The bench's state as the journal keeps it after every tick: CBOR (RFC 8949) in which a name
 * stands once and is then referred to (tag 256, stringref). JSON of the same state, as journals of
 * older programs hold it, is read as well.
 */
public final class KeptState {
  private static final CBORMapper MAPPER =
      Json.configured(CBORMapper.builder().enable(CBORGenerator.Feature.STRINGREF));

  private static final ObjectWriter WRITER = MAPPER.writerFor(BenchState.class);
  private static final ObjectReader READER = MAPPER.readerFor(BenchState.class);

  private KeptState() {}

  /** To be kept. */
  public static byte[] written(BenchState state) {
    try {
      return WRITER.writeValueAsBytes(state);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a state cannot be written as CBOR", e);
    }
  }

  /** For people and for the records that replay begins from. */
  public static String json(BenchState state) {
    try {
      return Json.MAPPER.writeValueAsString(state);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a state cannot be written as JSON", e);
    }
  }

  /**
   * As it was kept.
   *
   * @throws JournalException where it is not a bench's state
   */
  public static BenchState read(byte[] kept) throws JournalException {
    try {
      return isJson(kept) ? Json.MAPPER.readValue(kept, BenchState.class) : READER.readValue(kept);
    } catch (IOException e) {
      throw JournalException.unreadableState(e);
    }
  }

  /** No CBOR of a state begins with the brace of a JSON object. */
  private static boolean isJson(byte[] kept) {
    return kept.length > 0 && kept[0] == '{';
  }
}
