package dev.cupwarden.core.checks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/** A run of ten changes of one room, of which one is alive. */
class SurvivorsTest {
  private static final String ALIVE = "limits.Limits.allow MathMutator 24";

  private static String changed(String room, int index, boolean killed) {
    return "<mutation detected='%s' status='%s' numberOfTestsRun='1'>"
            .formatted(killed, killed ? "KILLED" : "SURVIVED")
        + "<mutatedClass>dev.cupwarden.core.%s.Limits</mutatedClass>".formatted(room)
        + "<mutatedMethod>allow</mutatedMethod><lineNumber>7</lineNumber>"
        + "<mutator>org.pitest.mutators.MathMutator</mutator>"
        + "<indexes><index>%d</index></indexes></mutation>\n".formatted(index);
  }

  private static String report(String room, int alive) {
    StringBuilder xml = new StringBuilder();
    for (int i = 0; i < 10; i++) {
      xml.append(changed(room, 24 + i, i >= alive));
    }
    return xml.toString();
  }

  @Test
  void oneThatWasReadIsInOrder() {
    Survivors run = Survivors.of(report("limits", 1));
    assertEquals(List.of(), run.heldAgainst(List.of("# Why it stays.", ALIVE, "")));
  }

  @Test
  void newOneAndStaleEntryAreWrong() {
    Survivors run = Survivors.of(report("limits", 1));
    assertEquals(
        List.of("alive, and not in the list: " + ALIVE), run.heldAgainst(List.of("# " + ALIVE)));
    assertEquals(
        List.of("in the list, and no longer alive: limits.Limits.allow MathMutator 25"),
        run.heldAgainst(List.of(ALIVE, "limits.Limits.allow MathMutator 25")));
  }

  @Test
  void entriesOfRoomsThatWereNotChangedAreLeftAlone() {
    Survivors run = Survivors.of(report("limits", 1));
    assertEquals(List.of(), run.heldAgainst(List.of(ALIVE, "dosing.Hose.with MathMutator 3")));
  }

  @Test
  void roomIsToKillNineInTen() {
    List<String> list = List.of(ALIVE, "limits.Limits.allow MathMutator 25");
    assertEquals(
        List.of("less than 90.0 %: mutations of limits: 8 of 10 killed, 80.0 %"),
        Survivors.of(report("limits", 2)).heldAgainst(list));
  }

  @Test
  void eachRoomIsJudgedByItself() {
    Survivors both = Survivors.of(report("limits", 0) + report("dosing", 2));
    assertEquals(
        List.of("less than 90.0 %: mutations of dosing: 8 of 10 killed, 80.0 %"),
        both.heldAgainst(
            List.of("dosing.Limits.allow MathMutator 24", "dosing.Limits.allow MathMutator 25")));
  }
}
