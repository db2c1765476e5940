package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Unit;
import java.util.Collection;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.snakeyaml.engine.v2.nodes.ScalarNode;

/** The keys {@code tanks}, {@code tray} and {@code water}. */
final class TankKeys {
  private static final Range SIZE = Range.of(0.1, 1000, Unit.L);

  /** Ready-mixed feed is below 1; a concentrate may be a few hundred times the label's rate. */
  private static final Range STRENGTH = Range.of(0.01, 500);

  private static final Range WATER_EC = Range.of(0, 5);

  /** As calcium carbonate, mg/L: the hardest mains have some 400. */
  private static final Range ALKALINITY = Range.of(0, 1000);

  private static final Range PH = Range.of(3, 11);
  private static final Range TRAY = Range.of(0.1, 1000, Unit.L);

  private TankKeys() {}

  static SortedMap<String, Tank> tanks(Optional<Entry> written, Collection<String> feeds)
      throws SetupException {
    SortedMap<String, Tank> tanks = new TreeMap<>();
    if (written.isEmpty()) {
      tanks.put("plain", new Tank("plain", Double.POSITIVE_INFINITY, Optional.empty(), 0));
      return tanks;
    }
    for (var named : written.get().safelyNamed().values().entrySet()) {
      tanks.put(named.getKey(), tank(named.getKey(), named.getValue(), feeds));
    }
    if (tanks.isEmpty()) {
      throw written.get().refuse("holds no tank: expected at least one by name, or no such key");
    }
    return tanks;
  }

  private static Tank tank(String name, Entry written, Collection<String> feeds)
      throws SetupException {
    Section keys = written.section("size", "feed", "strength");
    double sizeMl = keys.need("size", "a volume").quantity(SIZE);
    Optional<Entry> feed = keys.maybe("feed");
    Optional<Entry> strength = keys.maybe("strength");
    if (feed.isEmpty()) {
      if (strength.isPresent()) {
        throw strength.get().refuse("stands without feed: plain water has no strength");
      }
      return new Tank(name, sizeMl, Optional.empty(), 0);
    }
    return new Tank(
        name,
        sizeMl,
        Optional.of(feed.get().oneOf("a feed of this bench", feeds)),
        keys.need("strength", "label strength of what is in the tank").number(STRENGTH));
  }

  /** What the drip tray holds, mL. */
  static double trayMl(Optional<Entry> written) throws SetupException {
    return written.isEmpty() ? Bench.USUAL_TRAY_ML : written.get().quantity(TRAY);
  }

  static Water water(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return Water.USUAL;
    }
    Section keys = written.get().section("ec", "alkalinity", "ph");
    return new Water(
        conductivity(keys.need("ec", "the water's conductivity in mS/cm"), WATER_EC),
        maybe(keys.maybe("alkalinity"), ALKALINITY),
        maybe(keys.maybe("ph"), PH));
  }

  private static OptionalDouble maybe(Optional<Entry> written, Range range) throws SetupException {
    return written.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(written.get().number(range));
  }

  /** In mS/cm; a bare number is taken for mS/cm, as meters show it. */
  static double conductivity(Entry written, Range range) throws SetupException {
    if (written.node() instanceof ScalarNode scalar && scalar.getValue().contains("/")) {
      return written.quantity(Range.of(range.least(), range.most(), Unit.MS_PER_CM));
    }
    return written.number(range);
  }
}
