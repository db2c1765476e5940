package dev.cupwarden.core.longrun;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.TreeMap;

/** The page on testing, {@code controller/TESTING.md}: each long run puts in its own section. */
public final class TestReport {
  /** From the folder of any module. */
  private static final Path PAGE = Path.of("..", "..", "controller", "TESTING.md");

  private static final String RUNS = "## What long runs saw\n";

  private static final String HEAD =
      """
      # Testing

      `mvn -B verify` passes every test, the long ones in short. `mvn -B -Plong verify` passes the long ones alone, in full, in about an
      hour on two free cores; each then puts what it saw into its own section below, so a section is as old as its date.

      ## What is real and what is simulated

      Real: SQLite, PostgreSQL, both MQTT brokers, the browser, mail and web servers on loopback, the packaged programs, and the signals
      that kill them. Simulated, since it is not there: chips and lines at the level of their registers, pump, valves and tanks, the
      water, salts and roots in a cup, air and light of a room, the hands of a grower. All of that is invented, and stands in
      `controller/simulator`, twice: two worlds that share neither code nor constants (`TwoWorldsApartTest`) and differ in what they do
      (`TwoWorldsDifferTest`). How cups and cuttings differ stands in `TraitTable` for the first and in `Nature` for the second, how often
      what breaks in `FaultPlan`. What the second is made of stands in [the science](core/SCIENCE.md#a-second-world).

      ## How a seed is played again

      Everything that is drawn is drawn from a seed, and a failure names it.

      | what | again | on to other seeds |
      |---|---|---|
      | winters | `rehearse --cups 24 --days 120 --faults common --seed N`, with `--world second` for an even N | `-Drehearsal.from=N` |
      | both worlds | `rehearse --world both --faults all --seed N` | more by `-Dworlds.seeds=COUNT` |
      | power cuts | `-Dtest=PowerCutTest -Dpowercuts.seed=N` | `-Dpowercuts.from=N` |
      | kills | `-Dit.test=KilledRunIT -Dkills.seed=N` | the same |
      | fuzzing | `-Dtest=BenchFileFuzzTest -Dfuzz.seed=N`, and so the others | `-Dfuzz.from=N` |

      Sizes: `-Dcupyears`, `-Duntold.cupyears`, `-Dworlds.seeds`, `-Dpowercuts`, `-Dkills`, `-Dflood.speed`, `-Dsoak.ticks`, `-Dfuzz.minutes` (for each thing that is fuzzed), `-Dwinter.days`, `-Djobs.screens`.

      """
          + RUNS;

  private TestReport() {}

  /**
   * Puts in a section in place of what it said before; without {@code -Dreport=true} prints it.
   *
   * @param took how long the run was
   * @param text what it saw, with the range of its seeds
   */
  public static void put(String section, Duration took, String text) throws IOException {
    String said =
        "%s, in %d min %d s on %d cores: %s"
            .formatted(
                LocalDate.now(ZoneOffset.UTC),
                took.toMinutes(),
                took.toSecondsPart(),
                Runtime.getRuntime().availableProcessors(),
                text.strip());
    System.out.println(section + ": " + said);
    if (Boolean.getBoolean("report")) {
      Files.writeString(
          PAGE, with(Files.exists(PAGE) ? Files.readString(PAGE) : "", section, said));
    }
  }

  /** The page with that section in place of the one of its name, sections in order of name. */
  static String with(String page, String section, String said) {
    Map<String, String> sections = new TreeMap<>();
    String[] parts = page.substring(Math.max(0, page.indexOf(RUNS))).split("(?m)^### ", -1);
    for (int i = 1; i < parts.length; i++) {
      int end = parts[i].indexOf('\n');
      sections.put(parts[i].substring(0, end), parts[i].substring(end).strip());
    }
    sections.put(section, said);
    StringBuilder next = new StringBuilder(HEAD);
    sections.forEach(
        (name, text) ->
            next.append("\n### ").append(name).append("\n\n").append(text).append('\n'));
    return next.toString();
  }
}
