package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.setup.BenchTexts;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup that an order puts on a wired bench, with the parts of the board that no cup there has. */
class AddedCupStoryTest {
  private static final String ADD =
      """
      {"id":"%s","kind":"add","cup":"%s","vessel":"tall","mix":"coir","plant":"vine","stage":"white","cutting":"14 g"%s}""";

  private final Story story = story(BenchTexts.wired());

  private static Story story(String yaml) {
    return new Story(yaml, "2027-02-14T12:00:00Z", Tick.Rounds.ONE_A_TICK);
  }

  private String outcome(String order) {
    Advice advice = story.wait(Duration.ofMinutes(5)).look(order);
    return advice.receipts().stream()
        .map(each -> Objects.requireNonNullElse(each.why(), each.outcome()))
        .reduce("", String::concat);
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "s1 | scale: \"s1\" is already that of cup A1",
        "s9 | scale: \"s9\" is not a scale of the board; known: s1, s2",
      })
  void partOfACupThatStandsIsNotGivenTwice(String scale, String why) {
    assertEquals(why, outcome(ADD.formatted("o", "B1", ",\"scale\":\"" + scale + "\"")));
  }

  @Test
  void partsOfACupThatWasTakenOutAreFreeForTheNextOneOnce() {
    assertEquals(List.of(), told().free().orElseThrow().scales());
    assertEquals(List.of("p2"), told().free().orElseThrow().probes());
    outcome("{\"id\":\"r\",\"kind\":\"retire\",\"cup\":\"A1\",\"because\":\"rotted\"}");
    assertEquals(List.of("s1"), told().free().orElseThrow().scales());
    assertEquals(List.of("v1"), told().free().orElseThrow().valves());
    String parts = ",\"scale\":\"s1\",\"valve\":\"v1\"";
    assertEquals("done", outcome(ADD.formatted("b", "B1", parts)));
    assertEquals(Optional.of("s1"), story.state.wirings().get("B1").scale());
    assertEquals(Optional.of("v1"), told().cups().get("B1").wired().valve());
    assertEquals(
        "scale: \"s1\" is already that of cup B1", outcome(ADD.formatted("c", "B2", parts)));
    Schemas.assertFits("setup", Json.MAPPER.valueToTree(told()));
  }

  @Test
  void valveThatLeadsToWasteIsNoCups() {
    String waste =
        BenchTexts.wired().replace("v2: {gpio: 23}", "waste: {gpio: 25}\n    v2: {gpio: 23}");
    Story drained = story(waste + "drain: waste\n");
    assertEquals(List.of(), told(drained).free().orElseThrow().valves());
    Advice advice = drained.look(ADD.formatted("o", "B1", ",\"valve\":\"waste\""));
    assertEquals("valve: \"waste\" leads to waste, not to a cup", advice.receipts().get(0).why());
  }

  /** Its weight is known and it is dry; no pass that nothing brings is counted as given. */
  @Test
  void cupWithoutAValveIsNotCountedAsWatered() {
    Story bare = story(BenchTexts.wired().replace(", valve: v2", ""));
    bare.with("A1", 150.0).with("A2", 150.0);
    bare.tankMl.put("plain", 5000.0);
    bare.look();
    bare.run(Duration.ofHours(1));
    assertTrue(bare.givenMl("A1") > 0, "the one beside it is watered");
    assertEquals(0.0, bare.givenMl("A2"));
    CupStatus status =
        bare.tick.standing(bare.state).statuses().stream()
            .filter(one -> one.cup().equals("A2"))
            .findFirst()
            .orElseThrow();
    assertTrue(
        status.reasons().stream()
            .anyMatch(
                reason -> reason.sentence().contains("no valve leads to it: water it by hand")),
        status.reasons()::toString);
    Advice asked =
        bare.wait(Duration.ofMinutes(5))
            .look("{\"id\":\"d\",\"kind\":\"dose\",\"cup\":\"A2\",\"ml\":20,\"strength\":0}");
    assertEquals("Cup A2 has no valve.", asked.receipts().get(0).why());
    assertTrue(bare.raised("near-dry"), "a person is told");
  }

  /** A watch tells what a pump would give, also where none is wired yet. */
  @Test
  void benchThatIsWatchedTellsWhatACupWithoutAValveWouldGet() {
    Story bare = story(BenchTexts.wired().replace(", valve: v2", ""));
    bare.watchOnly = true;
    bare.with("A1", 150.0).with("A2", 150.0);
    bare.look();
    bare.run(Duration.ofHours(1));
    assertTrue(bare.givenMl("A2") > 0);
    assertEquals(true, told(bare).watched());
  }

  private BenchSetup told() {
    return told(story);
  }

  private static BenchSetup told(Story story) {
    return story.tick.setup(story.state);
  }
}
