package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Unit;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** The keys {@code mixes} and {@code vessels}. */
final class SubstrateKeys {
  private static final Range SATURATED = Range.of(0.2, 0.99);
  private static final Range ALPHA = Range.of(0.0001, 10);
  private static final Range N = Range.of(1.01, 10);
  private static final Range LEAST_AIR = Range.of(0, 0.5);

  /** From the lightest foam to quartz, which is 2.65 as a solid. */
  private static final Range DRY_DENSITY = Range.of(0.005, 2.65);

  private static final Range WIDTH = Range.of(10, 500, Unit.MM);
  private static final Range DEPTH = Range.of(10, 500, Unit.MM);
  private static final Range EMPTY = Range.of(0, 5000, Unit.G);

  private SubstrateKeys() {}

  static SortedMap<String, Mix> mixes(Entry written) throws SetupException {
    SortedMap<String, Mix> mixes = new TreeMap<>();
    for (var named : written.named().values().entrySet()) {
      mixes.put(named.getKey(), mix(named.getKey(), named.getValue()));
    }
    if (mixes.isEmpty()) {
      throw written.refuse("holds no mix: expected at least one by name");
    }
    return mixes;
  }

  private static Mix mix(String name, Entry written) throws SetupException {
    Section keys = written.section("retention", "unavailable", "least_air", "dry_density");
    Section curve =
        keys.need("retention", "saturated, residual, alpha and n")
            .section("saturated", "residual", "alpha", "n");
    double saturated = curve.need("saturated", "a volume fraction").number(SATURATED);
    return new Mix(
        name,
        saturated,
        below(saturated, curve.need("residual", "a volume fraction")),
        curve.need("alpha", "a number per cm of suction").number(ALPHA),
        curve.need("n", "a number above 1").number(N),
        below(saturated, keys.need("unavailable", "a volume fraction")),
        keys.need("least_air", "a volume fraction").number(LEAST_AIR),
        keys.need("dry_density", "g per mL, as filled").number(DRY_DENSITY));
  }

  private static double below(double saturated, Entry fraction) throws SetupException {
    double value = fraction.number(Range.FRACTION);
    if (value >= saturated) {
      throw fraction.refuse("%s is not below saturated, %s".formatted(value, saturated));
    }
    return value;
  }

  static SortedMap<String, Vessel> vessels(Entry written) throws SetupException {
    SortedMap<String, Vessel> vessels = new TreeMap<>();
    for (var named : written.named().values().entrySet()) {
      Section keys = named.getValue().section("top", "base", "depth", "empty", "holes");
      Optional<Entry> holes = keys.maybe("holes");
      if (holes.isPresent()) {
        holes.get().oneOf("a word for its holes", List.of("none"));
      }
      vessels.put(
          named.getKey(),
          new Vessel(
              named.getKey(),
              keys.need("top", "the inner diameter at the top").quantity(WIDTH),
              keys.need("base", "the inner diameter at the bottom").quantity(WIDTH),
              keys.need("depth", "the depth of mix").quantity(DEPTH),
              keys.need("empty", "the mass of the empty vessel").quantity(EMPTY),
              holes.isEmpty()));
    }
    if (vessels.isEmpty()) {
      throw written.refuse("holds no vessel: expected at least one by name");
    }
    return vessels;
  }
}
