package dev.cupwarden.core.messages;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;

/**
 * Sentences for people, by key, from the one file {@code english.properties} beside this class.
 * Each is a pattern of {@link String#format}, which takes its numbers with a decimal point.
 */
public final class Catalogue {
  private static final Properties ENGLISH = read("english.properties");

  private Catalogue() {}

  /**
   * The sentence of that key.
   *
   * @throws IllegalArgumentException where the catalogue has no such key
   */
  public static String say(String key, Object... values) {
    String pattern = ENGLISH.getProperty(key);
    if (pattern == null) {
      throw new IllegalArgumentException("the catalogue has no sentence " + key);
    }
    return values.length == 0 ? pattern : String.format(Locale.ROOT, pattern, values);
  }

  /** Whether there is a sentence of that key. */
  public static boolean has(String key) {
    return ENGLISH.containsKey(key);
  }

  /** All keys, in order. */
  public static Set<String> keys() {
    return new TreeSet<>(ENGLISH.stringPropertyNames());
  }

  private static Properties read(String name) {
    Properties sentences = new Properties();
    try (InputStream file = Catalogue.class.getResourceAsStream(name)) {
      sentences.load(new InputStreamReader(file, StandardCharsets.UTF_8));
      return sentences;
    } catch (IOException cut) {
      throw new UncheckedIOException(cut);
    }
  }
}
