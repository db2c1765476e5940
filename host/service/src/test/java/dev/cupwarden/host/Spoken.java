package dev.cupwarden.host;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.setup.RootStage;
import java.time.Instant;
import java.util.List;
import java.util.TreeMap;

/** Messages as a bench would say them. */
public final class Spoken {
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
        true,
        0.0,
        330.0,
        120.0,
        -0.1,
        0.15,
        0.5,
        0.8,
        List.of(new CupStatus.Told("window", 6.5, 8.0, "h", "Outside the watering window.")));
  }

  public static BenchStatus bench(Instant at) {
    return new BenchStatus(
        at,
        20.5,
        48.0,
        19.0,
        new TreeMap<>(java.util.Map.of("plain", 9000.0)),
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
}
