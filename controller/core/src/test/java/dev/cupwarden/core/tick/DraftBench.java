package dev.cupwarden.core.tick;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.alerts.AlertBook;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.Distrust;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.watering.OpenHours;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * One tick's draft of the example bench at noon, to run a single step on. A1 is a toughened cup of
 * 515.590 mL of mix: 401.872 g and 323.313 mL at capacity, of which it can take 271.754 mL
 * (CupWaterTest); refill, due and dry at 0.05, 0.50 and 0.75. A2 is struck.
 */
final class DraftBench {
  static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  static final Duration TICK = Duration.ofMinutes(5);
  static final double A1_CAPACITY_G = 401.872;
  static final double A1_AVAILABLE_ML = 271.754;

  /** Of a watering window that is open. */
  static final Case.WindowNow OPEN = new Case.WindowNow(true, true, 0.0);

  final Bench bench;
  final CupFrames frames;
  final SortedMap<String, Double> tankMl = new TreeMap<>();
  BenchState before;
  boolean leak;
  boolean leakUnread;
  OptionalDouble airC = OptionalDouble.empty();
  OptionalDouble rhPct = OptionalDouble.empty();

  DraftBench() {
    this("");
  }

  /** With further keys in its file. */
  DraftBench(String keys) {
    this(keys + "\n", Story.BENCH);
  }

  private DraftBench(String keys, String yaml) {
    try {
      bench = BenchFile.read("bench.yaml", keys + yaml);
      frames = new CupFrames(bench);
      before = seenBefore(new Tick(bench).fresh());
    } catch (SetupException refused) {
      throw new IllegalArgumentException(refused.getMessage(), refused);
    }
  }

  /** Another file. */
  static DraftBench of(String yaml) {
    return new DraftBench("", yaml);
  }

  private static BenchState seenBefore(BenchState fresh) {
    return new BenchState(
        AT.minus(TICK),
        false,
        fresh.cups(),
        fresh.air(),
        fresh.tanks(),
        fresh.pump(),
        fresh.hose(),
        fresh.compared(),
        fresh.orders(),
        fresh.alerts());
  }

  /** Before any step, with these orders. */
  BenchDraft draft(String... orders) {
    BenchDraft draft = new BenchDraft(bench, before, seen(orders));
    for (CupDraft cup : draft.cups.values()) {
      cup.frame = frames.of(cup.setup);
      cup.seeNow(AT);
    }
    return draft;
  }

  /** The step that puts out what a hose lets through. */
  PutOutPasses putOutPasses() {
    return new PutOutPasses(new OpenHours(bench.watering().window(), bench.place()), false);
  }

  /** What limits ask of that draft, its window open. */
  Case.BenchFacts facts(BenchDraft draft) {
    return putOutPasses().benchFacts(draft, OPEN);
  }

  private Observation seen(String... orders) {
    List<JsonNode> written = new ArrayList<>();
    for (String order : orders) {
      written.add(json(order));
    }
    return new Observation(
        AT,
        airC,
        rhPct,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        new TreeMap<>(),
        new TreeMap<>(),
        new TreeMap<>(tankMl),
        leak,
        leakUnread,
        false,
        written,
        false,
        false,
        false);
  }

  private static JsonNode json(String text) {
    try {
      return Json.MAPPER.readTree(text);
    } catch (JsonProcessingException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  /** A cup whose weight is known to 0.5 g and trusted, and which loses 1 g/h. */
  static CupDraft weighs(BenchDraft draft, String name, double massG) {
    return weighs(draft, name, massG, 0.5, Optional.empty());
  }

  /** One whose scale is not believed. */
  static CupDraft doubted(
      BenchDraft draft, String name, double massG, double sdG, DistrustCode why) {
    return weighs(draft, name, massG, sdG, Optional.of(new Distrust(why, 0.0, 0.0)));
  }

  private static CupDraft weighs(
      BenchDraft draft, String name, double massG, double sdG, Optional<Distrust> distrust) {
    CupDraft cup = draft.cups.get(name);
    cup.now = new CupEstimate(true, massG, 0.0, sdG, 1.0, 0.1, true, distrust, false, AT);
    cup.readG = massG;
    return cup;
  }

  /** One that holds so much, known and trusted. */
  static CupDraft holds(BenchDraft draft, String name, double depletion) {
    return weighs(draft, name, draft.cups.get(name).weights.massG(depletion));
  }

  /** With a part of what is kept of its weight replaced, by that part's name in the journal. */
  static void keeps(CupDraft cup, String part, String json) {
    ObjectNode kept = Json.MAPPER.valueToTree(cup.weight.estimate());
    kept.set(part, json(json));
    try {
      cup.weight = cup.weight.with(Json.MAPPER.treeToValue(kept, EstimateState.class));
    } catch (JsonProcessingException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  /** Its scale shows that, g, and nothing but it is known of its weight. */
  static void shows(CupDraft cup, double massG) {
    keeps(
        cup,
        "standstill",
        "{\"mass_g\":%s,\"since\":\"%s\",\"looks\":1,\"neighbours_moved\":false,\"step_g\":0.01}"
            .formatted(massG, AT));
    cup.readG = massG;
  }

  /** What is told of those conditions where nothing stood before. */
  static List<AlertNotice> told(BenchDraft draft, Conditions conditions) {
    return AlertBook.judge(
            Collections.emptySortedMap(), conditions, AT, draft.cups.keySet(), Duration.ZERO)
        .changes();
  }

  /** The only one of that code; empty where there is none. */
  static Optional<AlertNotice> told(BenchDraft draft, Conditions conditions, String code) {
    return told(draft, conditions).stream().filter(one -> one.code().equals(code)).findFirst();
  }

  /** An alert of the whole bench, a cup or a tank that stands since an hour ago. */
  static OpenAlert stands(String code, String cup, String tank) {
    return new OpenAlert(code, cup, "raised", AT.minus(Duration.ofHours(1)), tank, null);
  }

  /** The last receipt. */
  static Receipt last(BenchDraft draft) {
    return draft.receipts.get(draft.receipts.size() - 1);
  }
}
