package dev.cupwarden.host.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** What happened in a winter beside what the grower was told, in order of time. */
final class WinterDiary {
  static final ZoneId ZONE = ZoneId.of("Europe/London");
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("EEE d MMM uuuu HH:mm", Locale.ROOT);

  private record Row(Instant at, String happened, String told) {}

  private final List<Row> rows = new ArrayList<>();

  void happened(Instant at, String what) {
    rows.add(new Row(at, what, ""));
  }

  void told(Instant at, JsonNode alert) {
    String cup = alert.has("cup") ? " " + alert.get("cup").asText() : "";
    String state = alert.get("state").asText();
    String doing = state.equals("cleared") ? "" : ": " + alert.get("do").asText();
    rows.add(new Row(at, "", alert.get("code").asText() + cup + " " + state + doing));
  }

  static ZonedDateTime clock(Instant at) {
    return at.atZone(ZONE);
  }

  /** As a table in Markdown. */
  String table() {
    StringBuilder table =
        new StringBuilder("| when | what happened | what the grower was told |\n");
    table.append("|---|---|---|\n");
    rows.stream()
        .sorted(Comparator.comparing(Row::at))
        .forEach(
            row ->
                table.append(
                    "| %s | %s | %s |%n"
                        .formatted(TIME.format(clock(row.at())), row.happened(), row.told())));
    return table.toString();
  }
}
