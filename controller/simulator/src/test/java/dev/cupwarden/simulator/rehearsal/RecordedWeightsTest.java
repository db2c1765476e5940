package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import dev.cupwarden.core.checks.OpenData;
import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Weights that real balances recorded, played as if on the bench: as a scale gives them every five
 * minutes, and as a person with a kitchen scale notes them once a day. The estimate is held against
 * the record at the time, and its rate, drawn out for six hours and for a day, against what was
 * weighed then. What is seen is printed and stands in controller/core/SCIENCE.md; the bounds only
 * hold that it stays so.
 */
class RecordedWeightsTest {
  private static final Duration FIVE_MINUTES = Duration.ofMinutes(5);
  private static final Duration DAY = Duration.ofDays(1);

  /** A record: grams by time, straight between its readings. */
  private record Weights(String name, SortedMap<Instant, Double> massG) {
    double at(Instant at) {
      Instant from = massG.headMap(at.plusNanos(1)).lastKey();
      if (from.equals(massG.lastKey())) {
        return massG.get(from);
      }
      Instant to = massG.tailMap(at.plusNanos(1)).firstKey();
      double part =
          (double) Duration.between(from, at).toSeconds() / Duration.between(from, to).toSeconds();
      return massG.get(from) + (massG.get(to) - massG.get(from)) * part;
    }
  }

  /** What was seen of one record at one pace. */
  private static final class Seen {
    private final List<Double> nowG = new ArrayList<>();
    private final List<Double> sixHoursG = new ArrayList<>();
    private final List<Double> dayG = new ArrayList<>();
    private int looks;
    private int trusted;
    private int alerts;
    private int passes;
    private final SortedSet<String> codes = new TreeSet<>();

    String told(String name) {
      return String.format(
          Locale.ROOT,
          "| %s | %d | %d | %.2f | %.2f | %.2f | %d | %s |",
          name,
          looks,
          trusted,
          median(nowG),
          median(sixHoursG),
          median(dayG),
          alerts,
          String.join(", ", codes));
    }
  }

  private static double median(List<Double> of) {
    List<Double> sorted = new ArrayList<>(of);
    Collections.sort(sorted);
    return sorted.isEmpty() ? Double.NaN : sorted.get(sorted.size() / 2);
  }

  /** A bench of one cup whose dry mass and room for water are those of the sample. */
  private static Bench bench(double emptyG, double drySoilG, Duration tick) {
    // As a cup that the sample's vessel and soil would make: 0.713 g of soil a mL.
    double volumeMl = drySoilG / 0.713;
    double depthMm = 60;
    double diameterMm = Math.sqrt(volumeMl * 1000 / depthMm * 4 / Math.PI);
    Bench usual = UsualBench.of(1);
    Cup first = usual.cups().get("C001");
    SortedMap<String, Cup> cups = new TreeMap<>();
    Cup cup =
        new Cup(
            "S",
            "liner",
            "fine-peat",
            first.plant(),
            first.struck(),
            first.stage(),
            0.001,
            first.lines(),
            first.wiring());
    cups.put("S", cup);
    double ownMixG = usual.mixes().get("fine-peat").dryDensityGPerMl() * volumeMl;
    Vessel liner =
        new Vessel("liner", diameterMm, diameterMm, depthMm, emptyG + drySoilG - ownMixG);
    Bench made = UsualBench.of(cups, List.of(liner));
    return new Bench(
        made.name(),
        made.place(),
        made.watering(),
        tick,
        made.feeding(),
        made.rooting(),
        made.climate(),
        made.mixes(),
        made.vessels(),
        made.feeds(),
        made.waterEcMsPerCm(),
        made.tanks(),
        made.cups(),
        made.board(),
        made.trayMl());
  }

  private static Seen play(Weights record, Bench bench, Duration every) throws SetupException {
    Tick tick = new Tick(bench, every.equals(DAY) ? Tick.Rounds.DAILY : Tick.Rounds.ONE_A_TICK);
    BenchState state = tick.fresh();
    Seen seen = new Seen();
    Instant last = record.massG().lastKey();
    for (Instant at = record.massG().firstKey(); !at.isAfter(last); at = at.plus(every)) {
      // Nobody watered these: the bench is held, so that no pass is thought to have been given.
      List<JsonNode> orders = seen.looks == 0 ? List.of(hold(last)) : List.of();
      Tick.Step step = tick.step(state, observed(at, record.at(at), orders));
      state = step.state();
      seen.passes += step.passes().size();
      for (AlertNotice alert : step.brief().alerts()) {
        if (alert.state().equals("raised")) {
          seen.alerts++;
          seen.codes.add(alert.code());
        }
      }
      look(tick.standing(state).statuses().get(0), record, at, last, seen);
    }
    return seen;
  }

  private static void look(CupStatus told, Weights record, Instant at, Instant last, Seen seen) {
    seen.looks++;
    seen.trusted += told.trusted() ? 1 : 0;
    if (told.massG() == null) {
      return;
    }
    seen.nowG.add(Math.abs(told.massG() - record.at(at)));
    boolean settled = Duration.between(record.massG().firstKey(), at).toHours() >= 12;
    if (told.rateGPerH() != null && settled) {
      ahead(told, record, at, Duration.ofHours(6), last, seen.sixHoursG);
      ahead(told, record, at, DAY, last, seen.dayG);
    }
  }

  private static void ahead(
      CupStatus told, Weights record, Instant at, Duration time, Instant last, List<Double> into) {
    Instant then = at.plus(time);
    if (!then.isAfter(last)) {
      double foretoldG = told.massG() - Math.abs(told.rateGPerH()) * time.toMinutes() / 60.0;
      into.add(Math.abs(foretoldG - record.at(then)));
    }
  }

  private static JsonNode hold(Instant until) {
    return JsonNodeFactory.instance
        .objectNode()
        .put("id", "h-1")
        .put("kind", "hold")
        .put("until", until.plus(DAY).truncatedTo(ChronoUnit.SECONDS).toString());
  }

  private static Observation observed(Instant at, double massG, List<JsonNode> orders) {
    return new Observation(
        at,
        OptionalDouble.of(21),
        OptionalDouble.of(50),
        OptionalDouble.of(21),
        OptionalDouble.empty(),
        new TreeMap<>(Map.of("S", massG)),
        Collections.emptySortedMap(),
        Collections.emptySortedMap(),
        false,
        false,
        false,
        orders);
  }

  private static Instant instant(String local) {
    return LocalDateTime.parse(local).toInstant(ZoneOffset.UTC);
  }

  @Test
  @Outside(source = "evaporating-sample: 1,194 readings in 190 h; nothing was added")
  void theEvaporatingSampleOnABalance() throws SetupException {
    SortedMap<Instant, Double> massG = new TreeMap<>();
    for (List<String> row : OpenData.rows("evaporating-sample/sl_scale.csv")) {
      massG.put(instant(row.get(0)), Double.parseDouble(row.get(4)));
    }
    // Gross less net is the vessel on the balance.
    Weights record = new Weights("evaporating sample", massG);
    Seen quick = play(record, bench(678.4, 70.58, FIVE_MINUTES), FIVE_MINUTES);
    Seen daily = play(record, bench(678.4, 70.58, FIVE_MINUTES), DAY);
    System.out.println(quick.told("evaporating sample, five minutes"));
    System.out.println(daily.told("evaporating sample, daily"));
    assertTrue(median(quick.nowG) < 0.3, "now " + median(quick.nowG));
    assertTrue(median(quick.dayG) < 3, "a day ahead " + median(quick.dayG));
    assertTrue(median(daily.nowG) < 1.5, "daily " + median(daily.nowG));
  }

  @Test
  @Outside(source = "sand-evaporation-rate: 13.9 d; weights of a column of 50 cm2 from its rate")
  void theSandColumn() throws SetupException {
    SortedMap<Instant, Double> massG = new TreeMap<>();
    Instant start = Instant.parse("2026-11-16T08:00:00Z");
    double gross = 900;
    double before = 0;
    double rate = 0;
    for (List<String> row : OpenData.rows("sand-evaporation-rate/sand_evap_rate.csv")) {
      double s = Double.parseDouble(row.get(0));
      double flux = Double.parseDouble(row.get(1));
      gross -= (rate + flux) / 2 * (s - before) * 1e6 * 50e-4;
      rate = flux;
      before = s;
      massG.put(start.plusSeconds(Math.round(s)), gross);
    }
    Weights record = new Weights("sand column", massG);
    Seen quick = play(record, bench(10, 700, FIVE_MINUTES), FIVE_MINUTES);
    Seen daily = play(record, bench(10, 700, FIVE_MINUTES), DAY);
    System.out.println(quick.told("sand column, five minutes"));
    System.out.println(daily.told("sand column, daily"));
    assertTrue(median(quick.nowG) < 0.5, "now " + median(quick.nowG));
    assertTrue(median(daily.nowG) < 5, "daily " + median(daily.nowG));
  }

  @Test
  @Outside(source = "soil-cores-drydown: 90 cores rewetted once; weights between by straight lines")
  void theRewettedCores() throws SetupException {
    Map<String, List<List<String>>> cores = new TreeMap<>();
    for (List<String> row : OpenData.rows("soil-cores-drydown/soil_core_drydown.csv")) {
      cores.computeIfAbsent(row.get(0), key -> new ArrayList<>()).add(row);
    }
    Seen quick = new Seen();
    Seen daily = new Seen();
    int played = 0;
    for (List<List<String>> rows : cores.values()) {
      SortedMap<Instant, Double> massG = afterRewetting(rows);
      if (massG.size() < 3) {
        continue;
      }
      played++;
      double emptyG = Double.parseDouble(rows.get(0).get(4));
      double soilG = Double.parseDouble(rows.get(0).get(5));
      Weights record = new Weights("core", massG);
      add(play(record, bench(emptyG, soilG, FIVE_MINUTES), FIVE_MINUTES), quick);
      add(play(record, bench(emptyG, soilG, FIVE_MINUTES), DAY), daily);
    }
    System.out.println(quick.told("rewetted cores, five minutes"));
    System.out.println(daily.told("rewetted cores, daily"));
    assertEquals(40, played, "cores of 90 that were weighed twice more within eight days");
    assertEquals(0, quick.passes + daily.passes);
    assertTrue(median(quick.nowG) < 0.5, "now " + median(quick.nowG));
  }

  /** From the rewetting on, at most eight days of it. */
  private static SortedMap<Instant, Double> afterRewetting(List<List<String>> rows) {
    rows.sort((one, two) -> one.get(1).compareTo(two.get(1)));
    SortedMap<Instant, Double> massG = new TreeMap<>();
    double before = Double.NaN;
    for (List<String> row : rows) {
      double now = Double.parseDouble(row.get(3));
      boolean rewetted = now - before > 2;
      Instant at = instant(row.get(1));
      boolean goesOn = !massG.isEmpty() && Duration.between(massG.firstKey(), at).toDays() < 8;
      if (rewetted || goesOn) {
        massG.put(at, now);
      }
      before = now;
    }
    return massG;
  }

  private static void add(Seen one, Seen to) {
    to.nowG.addAll(one.nowG);
    to.sixHoursG.addAll(one.sixHoursG);
    to.dayG.addAll(one.dayG);
    to.looks += one.looks;
    to.trusted += one.trusted;
    to.alerts += one.alerts;
    to.passes += one.passes;
    to.codes.addAll(one.codes);
  }
}
