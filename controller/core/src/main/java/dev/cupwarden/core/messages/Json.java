package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.cfg.MapperBuilder;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;

/** The one way this program writes and reads JSON: snake case, RFC 3339 times, nothing lenient. */
public final class Json {
  private Json() {}

  /** Shared by all; Jackson's mappers are safe for that once configured. */
  public static final JsonMapper MAPPER = configured(JsonMapper.builder());

  /** A message of ours, or a tree that was read, as one line of text. */
  public static String written(Object message) {
    try {
      return MAPPER.writeValueAsString(message);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(message.getClass() + " is no message that can be written", e);
    }
  }

  /** The same names, times and strictness in another of Jackson's forms. */
  public static <M extends ObjectMapper, B extends MapperBuilder<M, B>> M configured(
      MapperBuilder<M, B> form) {
    return form.addModule(new JavaTimeModule())
        .addModule(new Jdk8Module())
        .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
        .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
        .disable(SerializationFeature.WRITE_DURATIONS_AS_TIMESTAMPS)
        .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
        .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
        .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
        .serializationInclusion(JsonInclude.Include.ALWAYS)
        .build();
  }
}
