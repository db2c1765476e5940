package dev.cupwarden.app.link;

import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.units.Elapsed;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What was read in one tick as a SenML pack (RFC 8428, sections 4.1 to 4.3 for the base fields).
 */
public final class SenmlPack {
  private SenmlPack() {}

  /** The records, the base name and time on the first; empty when nothing was read. */
  public static List<SenmlRecord> of(String bench, Observation seen) {
    List<SenmlRecord> records = new ArrayList<>();
    seen.massG().forEach((cup, g) -> records.add(record(cup + "/mass", "g", g)));
    seen.theta().forEach((cup, part) -> records.add(record(cup + "/theta", "/", part)));
    add(records, "air/temperature", "Cel", seen.airC());
    add(records, "air/humidity", "%RH", seen.rhPct());
    add(records, "root/temperature", "Cel", seen.rootC());
    add(records, "outdoor/temperature", "Cel", seen.outdoorC());
    add(records, "light", "umol/(m2 s)", seen.lightUmolPerM2S());
    seen.tankMl().forEach((tank, ml) -> records.add(record(tank + "/volume", "ml", ml)));
    if (!records.isEmpty()) {
      SenmlRecord first = records.get(0);
      double baseTimeS = Elapsed.epochSeconds(seen.at());
      records.set(
          0, new SenmlRecord(bench + "/", baseTimeS, first.name(), first.unit(), first.value()));
    }
    return records;
  }

  private static void add(
      List<SenmlRecord> records, String name, String unit, OptionalDouble value) {
    value.ifPresent(v -> records.add(record(name, unit, v)));
  }

  private static SenmlRecord record(String name, String unit, double value) {
    return new SenmlRecord(null, null, name, unit, value);
  }
}
