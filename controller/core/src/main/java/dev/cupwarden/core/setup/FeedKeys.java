package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Dimension;
import dev.cupwarden.core.units.Quantity;
import dev.cupwarden.core.units.QuantityException;
import dev.cupwarden.core.units.Unit;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** The keys {@code feeds} and {@code feeding}. */
final class FeedKeys {
  private static final Range PERCENT = Range.of(0, 100);
  private static final Range LABEL_VOLUME = Range.of(0.1, 1000, Unit.L);
  private static final Range LABEL_EVERY = Range.of(1, 365, Unit.D);
  private static final Range SPOON = Range.of(0.5, 20, Unit.G);
  private static final Range EC = Range.of(0, 5);

  /** Nursery crops in full growth bear 300 mg/L N, and no cutting does: our choice. */
  private static final Range MOST_N = Range.of(0, 400, Unit.MG_PER_L);

  /** Above this a feed no longer dissolves, or no root stands it: our choice. */
  private static final double MOST_LABEL_G_PER_L = 50;

  private static final double TEASPOON_ML = new Quantity(BigDecimal.ONE, Unit.TSP).inBase();

  private FeedKeys() {}

  static SortedMap<String, Feed> feeds(Optional<Entry> written) throws SetupException {
    SortedMap<String, Feed> feeds = new TreeMap<>();
    if (written.isPresent()) {
      for (var named : written.get().named().values().entrySet()) {
        feeds.put(named.getKey(), feed(named.getKey(), named.getValue()));
      }
    }
    return feeds;
  }

  private static Feed feed(String name, Entry written) throws SetupException {
    Section keys = written.section("analysis", "label", "spoon", "ec");
    Entry bag = keys.need("analysis", "N, P2O5 and K2O in percent");
    Section analysis = bag.section("N", "P2O5", "K2O");
    double nPct = analysis.need("N", "percent by mass").number(PERCENT);
    double p2o5Pct = analysis.need("P2O5", "percent by mass").number(PERCENT);
    double k2oPct = analysis.need("K2O", "percent by mass").number(PERCENT);
    double sumPct = nPct + p2o5Pct + k2oPct;
    if (sumPct > 100 || sumPct == 0) {
      throw bag.refuse(
          "adds up to %s percent: expected more than 0 and at most 100"
              .formatted(Quantity.show(sumPct)));
    }
    double spoonG = keys.need("spoon", "the mass of one level teaspoon").quantity(SPOON);
    Section label = keys.need("label", "amount, per and every").section("amount", "per", "every");
    return new Feed(
        name,
        nPct,
        p2o5Pct,
        k2oPct,
        labelGPerL(label, spoonG),
        label.need("every", "the label's interval").duration(LABEL_EVERY),
        spoonG,
        TankKeys.conductivity(keys.need("ec", "mS/cm added by 1 g per L"), EC));
  }

  private static double labelGPerL(Section label, double spoonG) throws SetupException {
    Entry amount = label.need("amount", "a mass, or spoons such as 1 tsp");
    double amountG = amountG(amount, spoonG);
    double perL = label.need("per", "a volume of water").quantity(LABEL_VOLUME) / 1000.0;
    double gPerL = amountG / perL;
    if (!(gPerL > 0 && gPerL <= MOST_LABEL_G_PER_L)) {
      throw amount.refuse(
          "%s comes to %s g per L: expected more than 0 and at most %s g per L"
              .formatted(amount.found(), Quantity.show(gPerL), Quantity.show(MOST_LABEL_G_PER_L)));
    }
    return gPerL;
  }

  /** A volume of feed is weighed by the grower's spoon, which holds one US teaspoon. */
  private static double amountG(Entry amount, double spoonG) throws SetupException {
    String text = amount.text();
    try {
      return Quantity.parse(text, Dimension.MASS).inBase();
    } catch (QuantityException notAMass) {
      try {
        return Quantity.parse(text, Dimension.VOLUME).inBase() / TEASPOON_ML * spoonG;
      } catch (QuantityException neither) {
        throw amount.refuse(
            "%s is neither a mass nor a volume: expected a number and one of %s, %s"
                .formatted(amount.found(), Dimension.MASS.symbols(), Dimension.VOLUME.symbols()));
      }
    }
  }

  static FeedingRules feeding(Optional<Entry> written, Collection<String> feeds)
      throws SetupException {
    FeedingRules usual = FeedingRules.USUAL;
    if (written.isEmpty()) {
      return usual;
    }
    Section keys =
        written.get().section("floor", "ceiling", "target", "strength", "most_n", "pause", "plan");
    double floor = keys.number("floor", Range.FRACTION, usual.floor());
    double ceiling = keys.number("ceiling", Range.FRACTION, usual.ceiling());
    if (floor > ceiling) {
      throw written.get().refuse("floor %s is above ceiling %s".formatted(floor, ceiling));
    }
    return new FeedingRules(
        floor,
        ceiling,
        byStage(keys.maybe("target"), usual.target(), part -> part.number(Range.FRACTION)),
        byStage(keys.maybe("strength"), usual.strength(), part -> part.number(Range.FRACTION)),
        byStage(keys.maybe("most_n"), usual.mostNMgPerL(), most -> most.quantity(MOST_N)),
        pause(keys.maybe("pause")),
        plan(keys.maybe("plan"), feeds));
  }

  /** One value of a stage. */
  private interface OfStage {
    double read(Entry written) throws SetupException;
  }

  /** Only for stages that take feed; one that is not listed has the usual value. */
  private static Map<RootStage, Double> byStage(
      Optional<Entry> written, Map<RootStage, Double> usual, OfStage value) throws SetupException {
    Map<RootStage, Double> byStage = new EnumMap<>(usual);
    if (written.isPresent()) {
      String[] fed =
          RootStage.words().stream()
              .filter(word -> RootStage.of(word).orElseThrow().takesFeed())
              .toArray(String[]::new);
      for (var stage : written.get().section(fed).values().entrySet()) {
        byStage.put(RootStage.of(stage.getKey()).orElseThrow(), value.read(stage.getValue()));
      }
    }
    return byStage;
  }

  private static Optional<FeedingRules.Pause> pause(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Section keys = written.get().section("from", "until");
    return Optional.of(
        new FeedingRules.Pause(
            keys.need("from", "month and day").dayOfYear(),
            keys.need("until", "month and day").dayOfYear()));
  }

  private static List<FeedingRules.PlanStep> plan(Optional<Entry> written, Collection<String> feeds)
      throws SetupException {
    List<FeedingRules.PlanStep> plan = new ArrayList<>();
    for (Entry step : written.isPresent() ? written.get().list() : List.<Entry>of()) {
      Section keys = step.section("from", "feed");
      LocalDate from = keys.need("from", "a date").date();
      if (plan.stream().anyMatch(other -> other.from().equals(from))) {
        throw step.refuse("begins on %s like another step of the plan".formatted(from));
      }
      plan.add(
          new FeedingRules.PlanStep(
              from, keys.need("feed", "a feed").oneOf("a feed of this bench", feeds)));
    }
    plan.sort(Comparator.comparing(FeedingRules.PlanStep::from));
    return List.copyOf(plan);
  }
}
