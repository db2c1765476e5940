package dev.cupwarden.core.plants;

import java.util.Collections;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;

/**
 * Plants by name. A name is matched without regard to case, spaces and hyphens, in the singular or
 * plural, by trade name or alias; what stands behind a comma, a bracket or a quotation mark is a
 * variety and not looked at: {@code fig, white}, {@code Ribes nigrum 'Early'}.
 */
public final class PlantTable {
  /** One that knows no plant. */
  public static final PlantTable EMPTY = new PlantTable(Collections.emptySortedMap());

  private static final Pattern VARIETY = Pattern.compile("[,;('\"‘’“”].*", Pattern.DOTALL);

  /** A word with more slips of the pen than one in so many letters is another word. */
  private static final int LETTERS_PER_SLIP = 3;

  private final SortedMap<String, Plant> plants;
  private final Map<String, Plant> byKey = new HashMap<>();

  /**
   * Of plants by trade name. Of two that go by one alias, the first has it; a trade name stands
   * before every alias.
   */
  public PlantTable(SortedMap<String, Plant> plants) {
    this.plants = Collections.unmodifiableSortedMap(new TreeMap<>(plants));
    this.plants.forEach((name, plant) -> byKey.put(key(name), plant));
    this.plants.forEach(
        (name, plant) -> plant.also().forEach(alias -> byKey.putIfAbsent(key(alias), plant)));
  }

  /** All of them, by trade name. */
  public SortedMap<String, Plant> plants() {
    return plants;
  }

  /** The same with these besides, which stand before what has the same name. */
  public PlantTable with(Map<String, Plant> own) {
    SortedMap<String, Plant> all = new TreeMap<>(plants);
    all.putAll(own);
    return new PlantTable(all);
  }

  /** The plant that somebody wrote of. */
  public Optional<Plant> find(String written) {
    String key = key(written);
    for (String form : new String[] {key, singular(key)}) {
      Plant plant = byKey.get(form);
      if (plant != null) {
        return Optional.of(plant);
      }
    }
    return Optional.empty();
  }

  /** The trade name of the plant whose name or alias is written most nearly so, if any is near. */
  public Optional<String> nearest(String written) {
    String key = singular(key(written));
    int least = key.length() / LETTERS_PER_SLIP + 1;
    String nearest = null;
    for (Map.Entry<String, Plant> known : new TreeMap<>(byKey).entrySet()) {
      int slips = slips(key, known.getKey());
      if (slips < least) {
        least = slips;
        nearest = known.getValue().name();
      }
    }
    return Optional.ofNullable(nearest);
  }

  private static String key(String written) {
    String kind = VARIETY.matcher(written).replaceFirst("");
    StringBuilder letters = new StringBuilder();
    kind.toLowerCase(Locale.ROOT)
        .codePoints()
        .filter(Character::isLetterOrDigit)
        .forEach(letters::appendCodePoint);
    return letters.toString();
  }

  /** Of a plural; else the same. */
  private static String singular(String key) {
    if (key.endsWith("ies")) {
      return key.substring(0, key.length() - 3) + "y";
    }
    return key.endsWith("s") ? key.substring(0, key.length() - 1) : key;
  }

  /** How many letters must be put in, left out or changed to make one word of the other. */
  private static int slips(String one, String other) {
    int[] row = new int[other.length() + 1];
    for (int j = 0; j <= other.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= one.length(); i++) {
      int before = row[0];
      row[0] = i;
      for (int j = 1; j <= other.length(); j++) {
        int changed = before + (one.charAt(i - 1) == other.charAt(j - 1) ? 0 : 1);
        before = row[j];
        row[j] = Math.min(changed, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[other.length()];
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof PlantTable table && plants.equals(table.plants);
  }

  @Override
  public int hashCode() {
    return plants.hashCode();
  }

  @Override
  public String toString() {
    return "PlantTable" + plants.keySet();
  }
}
