package dev.cupwarden.core.setup;

import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Reads a bench file. What is missing takes the usual values; what is wrong is refused, never
 * mended, with one sentence such as {@code bench.yaml:41:7 cups.A1.mix: "cour-perlite" is not a mix
 * of this bench; known: coir-perlite}.
 *
 * <p>Mandatory are {@code bench}, {@code mixes}, {@code vessels} and {@code cups}. Without {@code
 * place} the grower's clock is taken for UTC; without {@code tanks} there is one of plain water, of
 * unknown size, named {@code plain}.
 */
public final class BenchFile {
  /** No bench file may be larger. */
  public static final int MOST_BYTES = YamlText.MOST_BYTES;

  private BenchFile() {}

  /**
   * Reads the bytes of a file.
   *
   * @param fileName as the grower knows it, for the sentence
   */
  public static Bench read(String fileName, byte[] utf8) throws SetupException {
    return read(fileName, YamlText.decode(fileName, utf8));
  }

  /**
   * Reads the text of a file.
   *
   * @param fileName as the grower knows it, for the sentence
   * @throws SetupException with one sentence: where, which key, what was expected
   */
  public static Bench read(String fileName, String yaml) throws SetupException {
    Section top =
        YamlText.read(fileName, yaml)
            .section(
                "bench",
                "place",
                "watering",
                "tick",
                "feeding",
                "lines",
                "climate",
                "lamp",
                "mixes",
                "vessels",
                "feeds",
                "water",
                "covered",
                "tanks",
                "tray",
                "board",
                "hose",
                "drain",
                "plants",
                "cups");
    Bench bench = withoutCups(top);
    Bench whole = withCups(bench, top.need("cups", "the cups by name").safelyNamed());
    RuleKeys.refuseStrangers(top.maybe("climate"), whole.cups().keySet());
    HoseKeys.refuseShared(top.maybe("drain"), whole.cups().values());
    return whole;
  }

  private static Bench withoutCups(Section top) throws SetupException {
    String name = top.need("bench", "the bench's name").safeName();
    var place = RuleKeys.place(top.maybe("place"));
    var feeds = FeedKeys.feeds(top.maybe("feeds"));
    var tanks = TankKeys.tanks(top.maybe("tanks"), feeds.keySet());
    var board = BoardKeys.board(top.maybe("board"), tanks.keySet());
    return new Bench(
        name,
        place,
        RuleKeys.watering(top.maybe("watering"), place),
        RuleKeys.tick(top.maybe("tick")),
        FeedKeys.feeding(top.maybe("feeding"), feeds.keySet()),
        new RootingRules(
            LineKeys.perStage(top.maybe("lines")),
            PlantKeys.plants(top.maybe("plants"), KnownPlants.table())),
        RuleKeys.climate(top.maybe("climate"), top.maybe("lamp"), top.maybe("covered")),
        SubstrateKeys.mixes(top.need("mixes", "the mixes by name")),
        SubstrateKeys.vessels(top.need("vessels", "the vessels by name")),
        feeds,
        TankKeys.water(top.maybe("water")),
        tanks,
        new TreeMap<>(),
        board,
        TankKeys.trayMl(top.maybe("tray")),
        HoseKeys.hose(top.maybe("hose"), top.maybe("drain"), board));
  }

  private static Bench withCups(Bench bench, Section cups) throws SetupException {
    if (cups.values().size() > Bench.MOST_CUPS) {
      throw cups.self().refuse("are %d: %s".formatted(cups.values().size(), Bench.CUPS_RULE));
    }
    SortedMap<String, Cup> read = new TreeMap<>();
    for (var named : cups.values().entrySet()) {
      read.put(named.getKey(), CupKeys.cup(named.getKey(), named.getValue(), bench, read.values()));
    }
    return new Bench(
        bench.name(),
        bench.place(),
        bench.watering(),
        bench.tick(),
        bench.feeding(),
        bench.rooting(),
        bench.climate(),
        bench.mixes(),
        bench.vessels(),
        bench.feeds(),
        bench.water(),
        bench.tanks(),
        read,
        bench.board(),
        bench.trayMl(),
        bench.hose());
  }
}
