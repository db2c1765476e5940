package dev.cupwarden.app.loop;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Cups that an edited bench file calls by another name: the same cutting, by all that the file says
 * of it, or by plant and day where only one is so. What it was given stays its own. Where that
 * cannot be told, a person is.
 *
 * @param names as they were, by how the cups are called now
 * @param doubts sentences about cups that may have been renamed
 */
record Renaming(SortedMap<String, String> names, List<String> doubts) {
  static Renaming between(Bench before, Bench now) {
    Map<String, Cup> gone = without(before.cups(), now.cups());
    Map<String, Cup> come = without(now.cups(), before.cups());
    SortedMap<String, String> names = new TreeMap<>();
    for (Function<Cup, Object> kind :
        List.<Function<Cup, Object>>of(Renaming::all, Renaming::who)) {
      Map<Object, List<Cup>> were = by(gone, kind);
      by(come, kind)
          .forEach(
              (same, are) -> {
                List<Cup> ones = were.getOrDefault(same, List.of());
                if (are.size() == 1 && ones.size() == 1) {
                  names.put(are.get(0).name(), ones.get(0).name());
                  come.remove(are.get(0).name());
                  gone.remove(ones.get(0).name());
                }
              });
    }
    return new Renaming(names, doubts(gone, come));
  }

  private static Map<String, Cup> without(Map<String, Cup> cups, Map<String, Cup> others) {
    Map<String, Cup> left = new TreeMap<>(cups);
    left.keySet().removeAll(others.keySet());
    return left;
  }

  private static Map<Object, List<Cup>> by(Map<String, Cup> cups, Function<Cup, Object> kind) {
    return List.copyOf(cups.values()).stream().collect(Collectors.groupingBy(kind));
  }

  private static Object all(Cup cup) {
    return List.of(
        cup.plant(), cup.struck(), cup.vessel(), cup.mix(), cup.cuttingG(), cup.wiring());
  }

  private static Object who(Cup cup) {
    return List.of(cup.plant(), cup.struck());
  }

  private static List<String> doubts(Map<String, Cup> gone, Map<String, Cup> come) {
    List<String> doubts = new ArrayList<>();
    for (Cup now : come.values()) {
      List<String> maybe =
          gone.values().stream()
              .filter(was -> was.plant().equals(now.plant()))
              .map(Cup::name)
              .toList();
      if (!maybe.isEmpty()) {
        doubts.add(
            "%s begins as a new cup: if it is %s by another name, what that was given is not counted"
                .formatted(now.name(), String.join(" or ", maybe)));
      }
    }
    return doubts;
  }
}
