package dev.cupwarden.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.feeding.Nutrients;
import dev.cupwarden.core.feeding.Recipe;
import dev.cupwarden.core.feeding.StockRatio;
import dev.cupwarden.core.feeding.Teaspoons;
import dev.cupwarden.core.feeding.WaterAdvice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.core.tick.FeedDemand;
import dev.cupwarden.core.units.Dimension;
import dev.cupwarden.core.units.Quantity;
import dev.cupwarden.core.units.QuantityException;
import dev.cupwarden.core.units.Unit;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code recipe}: how much feed goes into a tank, and what the tank then holds. */
@Command(
    name = "recipe",
    description = {
      "Tells how much feed to weigh for a tank of the bench file, its strength, N-P-K and EC, and"
          + " how long the tank will last."
    },
    mixinStandardHelpOptions = true,
    exitCodeListHeading = "Exit codes:%n",
    exitCodeList = {"0:done", "2:bad usage or a bench file that cannot be used"})
public final class RecipeCommand implements Callable<Integer> {
  private static final double SMALL_ML = 1000;

  @Spec private CommandSpec spec;

  @Option(
      names = "--bench",
      required = true,
      paramLabel = "FILE",
      description = "The bench file (YAML).")
  private Path benchFile;

  @Option(
      names = "--tank",
      paramLabel = "NAME",
      description = "One tank of the bench file; else every tank with feed.")
  private String tankName;

  @Option(
      names = "--make",
      paramLabel = "VOLUME",
      description = "How much solution, such as \"3 L\" or \"1 US gal\"; else the tank's size.")
  private String make;

  @Option(
      names = "--feed",
      paramLabel = "NAME",
      description = "A feed of the bench file; else the tank's.")
  private String feedName;

  @Option(
      names = "--strength",
      paramLabel = "S",
      description = "Part of the label's strength; else the tank's.")
  private Double strength;

  @Option(
      names = "--stock",
      paramLabel = "N",
      description = "Make it by way of a concentrate, one part in N parts of solution.")
  private Double stockIn;

  @Option(names = "--json", description = "One JSON array in place of the text.")
  private boolean json;

  private record Mix(Tank tank, Recipe recipe, FeedDemand demand, Recipe stock, double stockMl) {
    double lastsDays() {
      return demand.feedMlPerD() > 0 ? recipe.volumeMl() / demand.feedMlPerD() : Double.NaN;
    }
  }

  @Override
  public Integer call() throws SetupException, IOException {
    Bench bench = BenchSource.load(benchFile);
    List<Mix> mixes = tanks(bench).stream().map(tank -> mix(bench, tank)).toList();
    PrintWriter out = spec.commandLine().getOut();
    out.print(json ? asJson(mixes) : asText(bench, mixes));
    out.flush();
    return 0;
  }

  private List<Tank> tanks(Bench bench) {
    if (tankName != null) {
      Tank tank = bench.tanks().get(tankName);
      if (tank == null) {
        throw wrong("--tank", "\"" + tankName + "\" is none of the bench file's tanks", bench);
      }
      return List.of(tank);
    }
    List<Tank> fed = bench.tanks().values().stream().filter(t -> t.feed().isPresent()).toList();
    if (fed.isEmpty()) {
      throw wrong("--tank", "no tank of the bench file holds feed; name one, and --feed", bench);
    }
    return fed;
  }

  private Mix mix(Bench bench, Tank tank) {
    String name = feedName != null ? feedName : tank.feed().orElse(null);
    Feed feed = name == null ? null : bench.feeds().get(name);
    if (feed == null) {
      String known = String.join(", ", bench.feeds().keySet());
      throw new ParameterException(
          spec.commandLine(),
          name == null
              ? "--feed: tank " + tank.name() + " holds plain water; name one of: " + known
              : "--feed: \"" + name + "\" is none of the bench file's feeds: " + known);
    }
    double part = strength != null ? strength : tank.strength();
    double volumeMl = make == null ? tank.sizeMl() : volumeMl();
    try {
      Recipe recipe = new Recipe(feed, volumeMl, part, bench.waterEcMsPerCm());
      FeedDemand demand = FeedDemand.predicted(bench, feed, part);
      if (stockIn == null) {
        return new Mix(tank, recipe, demand, null, 0);
      }
      StockRatio ratio = new StockRatio(StockRatio.Reading.ONE_IN, stockIn);
      double stockMl = ratio.stockMl(volumeMl);
      return new Mix(tank, recipe, demand, recipe.stock(ratio, stockMl), stockMl);
    } catch (IllegalArgumentException outOfRange) {
      throw new ParameterException(
          spec.commandLine(), "tank " + tank.name() + ": " + outOfRange.getMessage());
    }
  }

  private double volumeMl() {
    try {
      return Quantity.parse(make, Dimension.VOLUME).inBase();
    } catch (QuantityException unreadable) {
      throw new ParameterException(spec.commandLine(), "--make: " + unreadable.getMessage());
    }
  }

  private ParameterException wrong(String option, String what, Bench bench) {
    String known = String.join(", ", bench.tanks().keySet());
    return new ParameterException(
        spec.commandLine(), option + ": " + what + " (it has: " + known + ")");
  }

  private static String asText(Bench bench, List<Mix> mixes) {
    StringBuilder text = new StringBuilder();
    for (Mix mix : mixes) {
      Recipe recipe = mix.recipe();
      line(
          text,
          "%s: %s of %s at %s of the label's strength",
          mix.tank().name(),
          volume(recipe.volumeMl()),
          recipe.feed().name(),
          number(recipe.strength(), 3));
      if (mix.stock() == null) {
        weigh(text, recipe);
      } else {
        line(text, "  concentrate  %s, thinned 1 in %s", volume(mix.stockMl()), parts(mix));
        weigh(text, mix.stock());
        line(text, "  then         all of it, and water up to %s", volume(recipe.volumeMl()));
      }
      Nutrients mgPerL = recipe.elementsMgPerL();
      line(
          text,
          "  elements     N %s, P %s, K %s mg/L",
          number(mgPerL.nMg(), 1),
          number(mgPerL.pMg(), 1),
          number(mgPerL.kMg(), 1));
      line(
          text,
          "  EC           %s mS/cm, of which the water's own %s",
          number(recipe.ecMsPerCm(), 2),
          number(recipe.waterEcMsPerCm(), 2));
      lasts(text, bench, mix);
    }
    WaterAdvice.of(bench.water()).forEach(advice -> line(text, "Water: %s", advice));
    line(text, "Feed is salt: gloves; eye protection for concentrates; never in food bottles.");
    line(
        text, "Keep it dry, closed and labelled, away from children, pets, food, acids and fuels.");
    line(text, "Never mix a concentrate with calcium with one with phosphate or sulphate.");
    line(text, "Fill tanks through an air gap; local rules and the bag's own label come first.");
    return text.toString();
  }

  private static String parts(Mix mix) {
    return number(mix.recipe().volumeMl() / mix.stockMl(), 1);
  }

  private static void weigh(StringBuilder text, Recipe recipe) {
    String spoons =
        recipe.spoonCanTell()
            ? "or " + Teaspoons.words(recipe.levelTeaspoons())
            : "too little for a spoon";
    line(text, "  weigh        %s g, %s", number(recipe.feedG(), 2), spoons);
  }

  private static void lasts(StringBuilder text, Bench bench, Mix mix) {
    List<String> unfed = mix.demand().unfed();
    int fed = bench.cups().size() - unfed.size();
    if (Double.isNaN(mix.lastsDays())) {
      line(text, "  lasts        no cup may be fed yet");
    } else {
      line(
          text,
          "  lasts        about %s days by predicted use of the %s that may be fed",
          number(mix.lastsDays(), 0),
          fed == 1 ? "one cup" : fed + " cups");
      if (mix.lastsDays() > Recipe.KEEPS_DAYS) {
        line(
            text,
            "  keeps        about %s days once dissolved: make no more than %s",
            number(Recipe.KEEPS_DAYS, 0),
            volume(Recipe.KEEPS_DAYS * mix.demand().feedMlPerD()));
      }
    }
    if (bench.tanks().size() == 1 && !unfed.isEmpty()) {
      line(
          text,
          "  mix next     plain water: there is one tank, and %s may not be fed",
          String.join(", ", unfed));
    } else if (bench.tanks().size() == 1) {
      line(
          text,
          "  mix next     at most %s, the weakest feed that a cup wants",
          number(mix.demand().leastStrength(), 3));
    }
  }

  private static String asJson(List<Mix> mixes) {
    ArrayNode all = Json.MAPPER.createArrayNode();
    for (Mix mix : mixes) {
      Recipe recipe = mix.recipe();
      Nutrients mgPerL = recipe.elementsMgPerL();
      ObjectNode one = all.addObject();
      one.put("tank", mix.tank().name());
      one.put("feed", recipe.feed().name());
      one.put("volume_ml", rounded(recipe.volumeMl()));
      one.put("strength", rounded(recipe.strength()));
      one.put("feed_g", rounded(recipe.feedG()));
      one.put("level_teaspoons", rounded(recipe.levelTeaspoons()));
      one.put("n_mg_per_l", rounded(mgPerL.nMg()));
      one.put("p_mg_per_l", rounded(mgPerL.pMg()));
      one.put("k_mg_per_l", rounded(mgPerL.kMg()));
      one.put("ec_ms_per_cm", rounded(recipe.ecMsPerCm()));
      if (!Double.isNaN(mix.lastsDays())) {
        one.put("lasts_days", rounded(mix.lastsDays()));
      }
      if (mix.stock() != null) {
        ObjectNode stock = one.putObject("stock");
        stock.put("volume_ml", rounded(mix.stockMl()));
        stock.put("strength", rounded(mix.stock().strength()));
      }
    }
    return all + System.lineSeparator();
  }

  private static String volume(double ml) {
    return Quantity.show(ml, ml < SMALL_ML ? Unit.ML : Unit.L)
        + " ("
        + Quantity.show(ml, Unit.US_GAL)
        + ")";
  }

  private static double rounded(double value) {
    return Math.rint(value * 1e4) / 1e4;
  }

  private static String number(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }

  private static void line(StringBuilder text, String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append(System.lineSeparator());
  }
}
