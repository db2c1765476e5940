package dev.cupwarden.core.setup;

import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.PlantSources;
import dev.cupwarden.core.plants.PlantTable;
import dev.cupwarden.core.plants.RootingTime;
import dev.cupwarden.core.plants.Span;
import dev.cupwarden.core.units.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The key {@code plants}: a bench's own plants, in the same keys as the table that comes with the
 * program. One that is {@code like} another, or has the name of one that is known, needs only what
 * differs.
 */
final class PlantKeys {
  private static final Range SHIFT = Range.of(-Plant.MOST_SHIFT, Plant.MOST_SHIFT);

  /** Water freezes below; roots cook above. */
  private static final Range WARMTH = Range.of(0, 40, Unit.C);

  private static final Range DAYS = Range.of(1, 400);

  private static final int LONGEST_SOURCE = 400;

  private final PlantTable known;

  private PlantKeys(PlantTable known) {
    this.known = known;
  }

  /**
   * The plants that are known, with those of the bench.
   *
   * @param known stands where the bench says nothing of a plant
   */
  static PlantTable plants(Optional<Entry> written, PlantTable known) throws SetupException {
    if (written.isEmpty()) {
      return known;
    }
    PlantKeys keys = new PlantKeys(known);
    SortedMap<String, Plant> own = new TreeMap<>();
    for (var named : written.get().named().values().entrySet()) {
      own.put(named.getKey(), keys.plant(named.getKey(), named.getValue()));
    }
    return known.with(own);
  }

  private Plant plant(String name, Entry written) throws SetupException {
    Section keys =
        written.section(
            "like",
            "also",
            "lines",
            "root_temperature",
            "days_to_roots",
            "days_at",
            "base",
            "shoots_first",
            "sources");
    Optional<Plant> like = like(name, keys);
    Span rootC = rootC(keys, like);
    return new Plant(
        name,
        also(keys, like),
        lineShift(keys, like),
        rootC,
        rooting(keys, like, rootC),
        shootsFirst(keys, like),
        sources(keys, like));
  }

  private Optional<Plant> like(String name, Section keys) throws SetupException {
    Optional<Entry> named = keys.maybe("like");
    if (named.isEmpty()) {
      return known.find(name);
    }
    String other = named.get().text();
    Optional<Plant> like = known.find(other);
    if (like.isEmpty()) {
      String near = known.nearest(other).map(n -> ", is " + n + " meant?").orElse("");
      throw named.get().refuse(named.get().found() + " is not a plant that is known" + near);
    }
    return like;
  }

  /** Those of the other stay its own. */
  private static List<String> also(Section keys, Optional<Plant> like) throws SetupException {
    Optional<Entry> written = keys.maybe("also");
    if (written.isEmpty()) {
      return keys.maybe("like").isPresent() ? List.of() : like.map(Plant::also).orElse(List.of());
    }
    List<String> names = new ArrayList<>();
    for (Entry name : written.get().list()) {
      names.add(name.text());
    }
    return names;
  }

  private static double lineShift(Section keys, Optional<Plant> like) throws SetupException {
    return keys.number("lines", SHIFT, like.map(Plant::lineShift).orElse(0.0));
  }

  private static Span rootC(Section keys, Optional<Plant> like) throws SetupException {
    Optional<Entry> written = keys.maybe("root_temperature");
    return written.isEmpty() && like.isPresent()
        ? like.get().rootC()
        : keys.need("root_temperature", "such as 18..24 C").span(WARMTH);
  }

  /** Of new days without a warmth, the middle of what is wanted at the roots. */
  private static RootingTime rooting(Section keys, Optional<Plant> like, Span rootC)
      throws SetupException {
    Optional<RootingTime> was = like.map(Plant::rooting);
    Optional<Entry> written = keys.maybe("days_to_roots");
    Span days =
        written.isEmpty() && was.isPresent()
            ? was.get().days()
            : keys.need("days_to_roots", "such as 30..60, or a plant that it is like").span(DAYS);
    double middleC = (rootC.least() + rootC.most()) / 2.0;
    double atC = keys.quantity("days_at", WARMTH, was.map(RootingTime::atC).orElse(middleC));
    double baseC =
        keys.quantity("base", WARMTH, was.map(RootingTime::baseC).orElse(RootingTime.USUAL_BASE_C));
    if (baseC >= atC) {
      throw keys.self()
          .refuse("days at %s C say nothing above a base of %s C".formatted(atC, baseC));
    }
    return new RootingTime(days, atC, baseC);
  }

  private static boolean shootsFirst(Section keys, Optional<Plant> like) throws SetupException {
    Optional<Entry> written = keys.maybe("shoots_first");
    return written.isPresent()
        ? written.get().yesOrNo()
        : like.map(Plant::shootsFirst).orElse(false);
  }

  private static PlantSources sources(Section keys, Optional<Plant> like) throws SetupException {
    Optional<Entry> written = keys.maybe("sources");
    if (written.isEmpty()) {
      return own(keys, like);
    }
    Section facts =
        written.get().section("lines", "root_temperature", "days_to_roots", "shoots_first");
    String expected = "its source, or \"" + PlantSources.COMMON_PRACTICE + "\"";
    return new PlantSources(
        facts.need("lines", expected).line(LONGEST_SOURCE),
        facts.need("root_temperature", expected).line(LONGEST_SOURCE),
        facts.need("days_to_roots", expected).line(LONGEST_SOURCE),
        facts.need("shoots_first", expected).line(LONGEST_SOURCE));
  }

  /** What the grower wrote is the grower's; the rest has the source that it had. */
  private static PlantSources own(Section keys, Optional<Plant> like) {
    PlantSources own = PlantSources.BENCH_FILE;
    PlantSources was = like.map(Plant::sources).orElse(own);
    Map<String, Entry> values = keys.values();
    boolean days =
        values.containsKey("days_to_roots")
            || values.containsKey("days_at")
            || values.containsKey("base");
    return new PlantSources(
        values.containsKey("lines") ? own.lines() : was.lines(),
        values.containsKey("root_temperature") ? own.warmth() : was.warmth(),
        days ? own.days() : was.days(),
        values.containsKey("shoots_first") ? own.shoots() : was.shoots());
  }
}
