package dev.cupwarden.app.check;

import dev.cupwarden.core.plants.PlantTable;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** Which words for plants no table knows: their cups have the lines and looks of any plant. */
final class PlantCheck {
  private final Bench bench;

  PlantCheck(Bench bench) {
    this.bench = bench;
  }

  /** A note for each such word, with the cups that have it. */
  List<Finding> all() {
    PlantTable plants = bench.rooting().plants();
    SortedMap<String, List<String>> unknown = new TreeMap<>();
    for (Cup cup : bench.cups().values()) {
      if (plants.find(cup.plant()).isEmpty()) {
        unknown.computeIfAbsent(cup.plant(), word -> new ArrayList<>()).add(cup.name());
      }
    }
    return unknown.entrySet().stream()
        .map(word -> note(plants, word.getKey(), word.getValue()))
        .toList();
  }

  private static Finding note(PlantTable plants, String word, List<String> cups) {
    String near = plants.nearest(word).map(name -> ", is " + name + " meant?").orElse("");
    return Finding.note(
        "plants",
        "\"%s\" is in no table of plants%s Its cups are kept as any plant's: %s."
            .formatted(word, near.isEmpty() ? "." : near, String.join(", ", cups)));
  }
}
