package dev.cupwarden.host;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Decision;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.core.setup.Window;
import java.time.Instant;
import java.time.LocalDate;
import java.time.MonthDay;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** Messages as a bench would say them. */
public final class Spoken {
  /** The text of a bench file. */
  public static final String FILE =
      """
      bench: sill  # by the window
      watering: {pass: 30 mL}
      mixes:
        coir:
          retention: {saturated: 0.82, residual: 0.12, alpha: 0.22, n: 1.55}
          unavailable: 0.10
          least_air: 0.10
          dry_density: 0.10
      vessels:
        tall: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}
      cups:
        A1: {vessel: tall, mix: coir, plant: vine, stage: toughened, cutting: 12 g}
      """;

  public static final Instant EIGHT = Instant.parse("2027-02-14T08:00:00Z");

  private Spoken() {}

  public static CupStatus cup(String cup, Instant at, double massG) {
    return new CupStatus(
        at,
        cup,
        "currant",
        RootStage.WHITE,
        CupActivity.STEADY,
        massG,
        0.4,
        0.01,
        1.2,
        at.plusSeconds(36_000),
        at.plusSeconds(72_000),
        at.plusSeconds(57_600),
        at.plusSeconds(36_000),
        true,
        0.0,
        330.0,
        120.0,
        -0.1,
        0.15,
        0.5,
        0.8,
        30.0,
        15.0,
        5.0,
        null,
        null,
        null,
        List.of(new CupStatus.Told("window", 6.5, 8.0, "h", "Outside the watering window.")));
  }

  public static BenchStatus bench(Instant at) {
    return new BenchStatus(
        at,
        20.5,
        48.0,
        19.0,
        null,
        new TreeMap<>(Map.of("plain", 9000.0, "feed", 1200.0)),
        List.of(),
        300,
        "test");
  }

  public static List<SenmlRecord> pack(String bench, Instant at, String cup, double massG) {
    return List.of(
        new SenmlRecord(bench + "/", at.toEpochMilli() / 1000.0, cup + "/mass", "g", massG),
        new SenmlRecord(null, null, "air/temperature", "Cel", 20.5));
  }

  public static Event dose(String epoch, long seq, String cup, Instant at) {
    return new Event(
        epoch,
        seq,
        at,
        "dose",
        cup,
        Json.MAPPER.valueToTree(new Dose(cup, 20.0, 0.0, 0.0, "due", "given")));
  }

  public static Event alert(String epoch, long seq, String code, String state, Instant at) {
    return new Event(
        epoch,
        seq,
        at,
        "alert",
        null,
        Json.MAPPER.valueToTree(
            new AlertNotice(code, null, state, at, 4.0, 6.0, "Look at the bench.")));
  }

  /** A bench of those cups, each {@code name:plant}. */
  public static BenchSetup setup(Instant at, String... cups) {
    var named = new TreeMap<String, BenchSetup.Cup>();
    for (String cup : cups) {
      String[] parts = cup.split(":", 2);
      named.put(
          parts[0],
          new BenchSetup.Cup(
              "tall",
              "coir",
              parts[1],
              Optional.of(LocalDate.parse("2026-11-14")),
              RootStage.TOUGHENED,
              12,
              StageLines.usual(RootStage.TOUGHENED),
              null,
              null));
    }
    return new BenchSetup(
        at,
        Optional.of(ZoneId.of("Europe/London")),
        new BenchSetup.Watering(new Window.Daylight(), 30, 720),
        new BenchSetup.Feeding(
            0,
            0.5,
            Map.of(RootStage.TOUGHENED, 0.5),
            FeedingRules.USUAL.strength(),
            FeedingRules.USUAL.mostNMgPerL(),
            Optional.of(new FeedingRules.Pause(MonthDay.of(12, 1), MonthDay.of(12, 24))),
            List.of(new FeedingRules.PlanStep(LocalDate.parse("2026-11-01"), "leafy"))),
        new BenchSetup.Climate(12, 3, 30, 27, Optional.empty()),
        new TreeMap<>(Map.of("tall", new BenchSetup.Vessel(92, 60, 112, 13))),
        new TreeMap<>(Map.of("coir", new BenchSetup.Mix(0.82, 0.1, 0.1))),
        // One level teaspoon of 5.8 g per US gallon.
        new TreeMap<>(
            Map.of(
                "leafy", new BenchSetup.Feed(20, 10, 20, 5.8 / 3.785411784, 1_209_600, 5.8, 1.25))),
        0.3,
        new TreeMap<>(
            Map.of(
                "plain", new BenchSetup.Tank(12_000, Optional.empty(), 0, 1_000.0),
                "feed", new BenchSetup.Tank(4_000, Optional.of("leafy"), 0.5))),
        named,
        new TreeMap<>(),
        Arrays.stream(LimitCode.values()).map(LimitCode::told).toList(),
        Arrays.stream(AlertCode.values()).map(AlertCode::told).toList(),
        List.of(),
        List.of(),
        List.of(),
        Optional.empty(),
        null,
        Optional.of(FILE));
  }

  public static Event decision(
      String epoch, long seq, String cup, Instant at, double depletion, String... codes) {
    List<CupStatus.Told> reasons =
        Arrays.stream(codes).map(code -> new CupStatus.Told(code, 1, 2, "h", "so it is")).toList();
    Decision decision =
        new Decision(CupActivity.STEADY, 301.5, depletion, 1.2, 0.9, 0.25, 0.7, reasons);
    return new Event(epoch, seq, at, "decision", cup, Json.MAPPER.valueToTree(decision));
  }
}
