package dev.cupwarden.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.PlantTable;
import dev.cupwarden.core.plants.Span;
import dev.cupwarden.core.setup.KnownPlants;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.units.Quantity;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code plants}: what is known of each kind of plant, and where that is from. */
@Command(
    name = "plants",
    description = {
      "Tells what is known of each kind of plant as a cutting: how wet and how warm it roots, how"
          + " soon, whether it shoots first; and the source of each.",
      "A bench file may add its own, or overrule: \"plants: {my-quince: {like: quince, lines:"
          + " 0.05, days_to_roots: 30..60}}\"."
    },
    mixinStandardHelpOptions = true,
    exitCodeListHeading = "Exit codes:%n",
    exitCodeList = {"0:done", "2:bad usage or a bench file that cannot be used"})
public final class PlantsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description = "With the plants of this bench file (YAML).")
  private Path benchFile;

  @Option(names = "--json", description = "One JSON array in place of the text.")
  private boolean json;

  @Parameters(arity = "0..1", paramLabel = "PLANT", description = "Only this one, by any name.")
  private String name;

  @Override
  public Integer call() throws SetupException, IOException {
    PlantTable table =
        benchFile == null ? KnownPlants.table() : BenchSource.load(benchFile).rooting().plants();
    Collection<Plant> plants = name == null ? table.plants().values() : List.of(one(table));
    PrintWriter out = spec.commandLine().getOut();
    out.print(json ? asJson(plants) : asText(plants));
    out.flush();
    return 0;
  }

  private Plant one(PlantTable table) {
    return table
        .find(name)
        .orElseThrow(
            () ->
                new ParameterException(
                    spec.commandLine(),
                    "PLANT: \"%s\" is in no table of plants%s"
                        .formatted(
                            name,
                            table.nearest(name).map(n -> ", is " + n + " meant?").orElse(""))));
  }

  private static String asText(Collection<Plant> plants) {
    StringBuilder text = new StringBuilder();
    for (Plant plant : plants) {
      String also = plant.also().isEmpty() ? "" : " (" + String.join(", ", plant.also()) + ")";
      line(text, "%s%s", plant.name(), also);
      fact(text, "lines", moved(plant.lineShift()), plant.sources().lines());
      fact(text, "roots at", span(plant.rootC()) + " °C", plant.sources().warmth());
      fact(text, "roots in", time(plant), plant.sources().days());
      fact(
          text,
          "shoots",
          plant.shootsFirst() ? "often before roots" : "after roots",
          plant.sources().shoots());
    }
    line(text, "Pages were read as stored copies; \"common practice\" has no page behind it.");
    return text.toString();
  }

  private static String moved(double shift) {
    return shift == 0.0
        ? "as any plant's"
        : Quantity.show(Math.abs(shift))
            + (shift > 0.0 ? " drier" : " moister")
            + " than any plant's, as a depletion";
  }

  private static String time(Plant plant) {
    return "%s days at %s °C, counted above %s °C"
        .formatted(
            span(plant.rooting().days()),
            Quantity.show(plant.rooting().atC()),
            Quantity.show(plant.rooting().baseC()));
  }

  private static String span(Span span) {
    return Quantity.show(span.least()) + " to " + Quantity.show(span.most());
  }

  private static void fact(StringBuilder text, String what, String fact, String source) {
    line(text, "  %-9s %s", what, fact);
    line(text, "            %s", source);
  }

  private static String asJson(Collection<Plant> plants) {
    ArrayNode all = Json.MAPPER.createArrayNode();
    for (Plant plant : plants) {
      ObjectNode one = all.addObject();
      one.put("plant", plant.name());
      plant.also().forEach(one.putArray("also")::add);
      one.put("lines", plant.lineShift());
      one.put("root_c_least", plant.rootC().least()).put("root_c_most", plant.rootC().most());
      one.put("days_least", plant.rooting().days().least());
      one.put("days_most", plant.rooting().days().most());
      one.put("days_at_c", plant.rooting().atC()).put("base_c", plant.rooting().baseC());
      one.put("shoots_first", plant.shootsFirst());
      ObjectNode sources = one.putObject("sources");
      sources.put("lines", plant.sources().lines());
      sources.put("root_temperature", plant.sources().warmth());
      sources.put("days_to_roots", plant.sources().days());
      sources.put("shoots_first", plant.sources().shoots());
    }
    return all + System.lineSeparator();
  }

  private static void line(StringBuilder text, String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append(System.lineSeparator());
  }
}
