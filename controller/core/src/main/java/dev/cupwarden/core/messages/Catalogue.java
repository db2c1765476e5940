package dev.cupwarden.core.messages;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;

/**
 * Sentences for people, by key, from the one file {@code english.properties} beside this class.
 * Each is a {@link SentencePattern}.
 */
public final class Catalogue {
  private static final Map<String, SentencePattern> ENGLISH = read("english.properties");

  private Catalogue() {}

  /**
   * The sentence of that key.
   *
   * @throws IllegalArgumentException where the catalogue has no such key
   */
  public static String say(String key, Object... values) {
    SentencePattern pattern = ENGLISH.get(key);
    if (pattern == null) {
      throw new IllegalArgumentException("the catalogue has no sentence " + key);
    }
    return pattern.with(values);
  }

  /** Whether there is a sentence of that key. */
  public static boolean has(String key) {
    return ENGLISH.containsKey(key);
  }

  /** All keys, in order. */
  public static Set<String> keys() {
    return new TreeSet<>(ENGLISH.keySet());
  }

  private static Map<String, SentencePattern> read(String name) {
    Properties sentences = new Properties();
    try (InputStream file = Catalogue.class.getResourceAsStream(name)) {
      sentences.load(new InputStreamReader(file, StandardCharsets.UTF_8));
    } catch (IOException cut) {
      throw new UncheckedIOException(cut);
    }
    Map<String, SentencePattern> patterns = new HashMap<>();
    for (String key : sentences.stringPropertyNames()) {
      patterns.put(key, SentencePattern.of(sentences.getProperty(key)));
    }
    return patterns;
  }
}
