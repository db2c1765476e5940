package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What an older program kept and told, and this one does no more. */
class OlderJournalTest {
  private static final String NOTICE =
      "{\"code\":\"rot-suspected\",\"cup\":\"A1\",\"state\":\"raised\","
          + "\"since\":\"2027-02-13T08:00:00Z\",\"value\":0.5,\"threshold\":0.65,"
          + "\"do\":\"Look at its roots.\"}";

  @Test
  void alertThatIsToldNoMoreIsClearedOnce() throws Exception {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0).with("A2", 350.0);
    story.look();
    ObjectNode kept = Json.MAPPER.valueToTree(story.state);
    ObjectNode open = (ObjectNode) kept.get("alerts");
    String since = "2027-02-13T08:00:00Z";
    open.putObject("rot-suspected/A1")
        .put("code", "rot-suspected")
        .put("cup", "A1")
        .put("state", "raised")
        .put("since", since)
        .putObject("told")
        .put("at", since)
        .set("notice", Json.MAPPER.readTree(NOTICE));
    open.putObject("rot-suspected")
        .put("code", "rot-suspected")
        .put("state", "raised")
        .put("since", since);

    story.state = Json.MAPPER.treeToValue(kept, BenchState.class);
    story.alerts.clear();
    story.run(Duration.ofHours(1));

    List<AlertNotice> told =
        story.alerts.stream().filter(alert -> alert.code().equals("rot-suspected")).toList();
    assertEquals(List.of("cleared A1"), told.stream().map(a -> a.state() + " " + a.cup()).toList());
    assertFalse(
        story.state.alerts().values().stream().anyMatch(a -> a.code().equals("rot-suspected")));
  }

  /** Older programs had a third state. */
  @Test
  void alertThatWasOnlyWarnedOfIsClearedAndRaisedAsWhatItIs() throws Exception {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 455.0);
    story.look();
    story.run(Duration.ofHours(25));
    String state = Json.MAPPER.writeValueAsString(story.state);
    String older =
        state
            .replace("\"staying-wet", "\"wet-too-long")
            .replace("\"state\":\"raised\"", "\"state\":\"warned\"");
    story.state = Json.MAPPER.readValue(older, BenchState.class);
    story.alerts.clear();
    story.run(Duration.ofMinutes(5));
    assertEquals(
        List.of("wet-too-long cleared", "staying-wet raised"),
        story.alerts.stream()
            .filter(a -> "A1".equals(a.cup()))
            .map(a -> a.code() + " " + a.state())
            .toList());
  }

  /** How a cup's days go was not kept. */
  @Test
  void profileOfItsDaysIsLearnedAnew() throws Exception {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0).with("A2", 350.0);
    story.look();
    ObjectNode kept = Json.MAPPER.valueToTree(story.state);
    ObjectNode estimate = (ObjectNode) kept.at("/cups/A1/weight/estimate");
    assertTrue(estimate.has("day"));
    estimate.remove("day");
    estimate.remove("by_light");
    story.state = Json.MAPPER.treeToValue(kept, BenchState.class);
    story.run(Duration.ofHours(3));
    assertTrue(
        Json.MAPPER.valueToTree(story.state).at("/cups/A1/weight/estimate/day/hours").asInt() > 0);
  }
}
