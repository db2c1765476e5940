package dev.cupwarden.core.messages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Our own JSON Schemas, ready to hold messages against. */
public final class Schemas {
  private static final String ID = "urn:cupwarden:schema:";
  private static final SchemaRegistry REGISTRY =
      SchemaRegistry.withDefaultDialect(
          SpecificationVersion.DRAFT_2020_12, builder -> builder.schemas(Schemas::text));

  private Schemas() {}

  /** Fails if a message does not fit the schema of that name. */
  public static void assertFits(String name, JsonNode message) {
    assertEquals(List.of(), errors(name, message), message::toString);
  }

  /** Fails if a message fits the schema of that name. */
  public static void assertDoesNotFit(String name, JsonNode message) {
    assertFalse(errors(name, message).isEmpty(), message::toString);
  }

  private static List<Error> errors(String name, JsonNode message) {
    Schema schema = REGISTRY.getSchema(SchemaLocation.of(ID + name));
    return schema.validate(
        message,
        context -> context.executionConfig(config -> config.formatAssertionsEnabled(true)));
  }

  private static String text(String id) {
    if (!id.startsWith(ID)) {
      return null;
    }
    String file = "schema/" + id.substring(ID.length()) + ".schema.json";
    try (InputStream in = Json.class.getResourceAsStream(file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
