package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.host.store.Readings.Reading;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Resolves a SenML pack (RFC 8428, section 4.6) into readings: base name and base time are carried
 * from record to record.
 */
final class SenmlReader {
  private static final int MOST_RECORDS = 5_000;
  private static final Pattern NAME = Pattern.compile("[^+#\\p{Cntrl}]{1,140}");

  /**
   * Below it a time is relative to now (RFC 8428, section 4.5.3), which a stored reading cannot be.
   */
  private static final double LEAST_ABSOLUTE_S = 1L << 28;

  /** 2100-01-01: a time beyond it is a unit mixed up. */
  private static final double LATEST_S = 4_102_444_800.0;

  private final JsonMapper mapper;

  SenmlReader(JsonMapper mapper) {
    this.mapper = mapper;
  }

  List<Reading> read(String bench, JsonNode pack) throws MalformedException {
    if (!pack.isArray() || pack.isEmpty()) {
      throw new MalformedException("expected a list of records");
    }
    if (pack.size() > MOST_RECORDS) {
      throw new MalformedException(pack.size() + " records, more than " + MOST_RECORDS);
    }
    List<Reading> readings = new ArrayList<>(pack.size());
    Instant at = null;
    for (int index = 0; index < pack.size(); index++) {
      SenmlRecord record = recordOf(pack.get(index), index);
      String where = "record " + (index + 1) + ": ";
      if (record.baseName() != null && !record.baseName().equals(bench + "/")) {
        throw new MalformedException(where + "bn is not the bench of the topic");
      }
      at = record.baseTimeS() == null ? at : timeOf(record.baseTimeS(), where);
      if (at == null) {
        throw new MalformedException(where + "bt is missing");
      }
      if (record.name() == null || !NAME.matcher(record.name()).matches()) {
        throw new MalformedException(where + "n is missing or not a name");
      }
      if (record.unit() != null && record.unit().length() > 32) {
        throw new MalformedException(where + "u is longer than 32 characters");
      }
      readings.add(new Reading(bench, record.name(), record.unit(), at, record.value()));
    }
    return readings;
  }

  private SenmlRecord recordOf(JsonNode node, int index) throws MalformedException {
    try {
      if (!node.path("v").isNumber()) {
        throw new MalformedException("record " + (index + 1) + ": v is not a number");
      }
      return mapper.treeToValue(node, SenmlRecord.class);
    } catch (JsonProcessingException wrong) {
      throw new MalformedException("record " + (index + 1) + ": " + MalformedJson.sentence(wrong));
    }
  }

  private static Instant timeOf(double seconds, String where) throws MalformedException {
    if (seconds < LEAST_ABSOLUTE_S || seconds > LATEST_S) {
      throw new MalformedException(where + "bt is not a time of this century");
    }
    return Elapsed.atEpochSeconds(seconds);
  }
}
