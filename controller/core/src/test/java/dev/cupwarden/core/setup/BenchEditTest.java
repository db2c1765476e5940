package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A person edits the text of a bench file; what it asks for goes as orders, key by key. */
class BenchEditTest {
  private static final String FILE =
      BenchTexts.wired().replace("bench: wired", "bench: wired  # mine");

  private static BenchEdit edit(String was, String is) throws SetupException {
    assertTrue(FILE.contains(was), was);
    return BenchEdit.of(text(FILE), text(FILE.replace(was, is)));
  }

  private static BenchText text(String yaml) {
    return new BenchText("bench file", yaml);
  }

  @Test
  void eachKeyThatIsSaidOtherwiseIsOneChangeAndRemarksStay() throws SetupException {
    BenchEdit edit = edit("mixes:\n", "watering: {pass: 20 mL}\nclimate: {cold: 11 C}\nmixes:\n");
    assertEquals(
        List.of(
            new BenchChange("watering", "null", "{\"pass\":\"20 mL\"}"),
            new BenchChange("climate", "null", "{\"cold\":\"11 C\"}")),
        edit.changes());
    assertEquals(List.of(), edit.refused());
    BenchText changed = text(FILE);
    for (BenchChange change : edit.changes()) {
      changed = changed.with(change);
    }
    assertEquals(20.0, changed.read().watering().passMl());
    assertTrue(changed.yaml().contains("bench: wired  # mine"), changed.yaml());
  }

  /** A plan names a feed that the same edit writes below it. */
  @Test
  void whatNeedsAnotherKeyComesAfterIt() throws SetupException {
    String feed =
        "  leafy: {analysis: {N: 20, P2O5: 10, K2O: 20}, label: {amount: 1 g, per: 1 L, every: 14 d},"
            + " spoon: 5 g, ec: 1.2}\n";
    BenchEdit edit =
        edit(
            "mixes:\n",
            "feeding:\n  plan:\n    - {from: 2026-11-01, feed: leafy}\nfeeds:\n"
                + feed
                + "mixes:\n");
    assertEquals(List.of(), edit.refused());
    assertEquals(
        List.of("feeds", "feeding"), edit.changes().stream().map(BenchChange::path).toList());
  }

  @ParameterizedTest(name = "{1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          bench: wired | bench: tired | bench: is changed in the bench file only, with the bench stopped
          gpio: 17 | gpio: 18 | board.pump.gpio: is changed in the bench file only, with the bench stopped
          rate: 1.5 mL/s | rate: 1.6 mL/s | board.pump.rate: is changed in the bench file only, with the bench stopped
          scale: s1, valve: v1 | scale: s1 | cups.A1.valve: is changed in the bench file only, with the bench stopped
          'stage: white, cutting: 14 g, scale: s1' | 'stage: toughened, cutting: 14 g, scale: s1' | cups.A1.stage: what is seen of the roots is told by an order stage
          '  leak: {gpio: 26}' | '  without: {leak: it has a drain}' | board.leak: is changed in the bench file only, with the bench stopped
          """)
  void whatNoOrderChangesIsToldInASentence(String was, String is, String sentence)
      throws SetupException {
    BenchEdit edit = edit(was, is);
    assertEquals(List.of(), edit.changes());
    assertTrue(edit.refused().contains(sentence), edit.refused()::toString);
  }

  @Test
  void cupThatIsWrittenInOrTakenOutIsSentToItsOwnOrder() throws SetupException {
    BenchEdit added =
        edit(
            "cups:\n",
            "cups:\n  B1: {vessel: tall, mix: coir, plant: fig, stage: struck, cutting: 9 g}\n");
    assertTrue(added.refused().get(0).startsWith("cups.B1: a cup comes by an order add"));
    assertEquals(List.of(), added.changes());
  }

  @Test
  void remarksThatAreTypedAreNotCarriedOverAndThatIsSaid() throws SetupException {
    BenchEdit edit = edit("# mine", "# ours");
    assertEquals(List.of(), edit.changes());
    assertTrue(edit.otherText());
    assertFalse(edit("0.82, residual", "0.83, residual").otherText(), "that is a key");
  }

  @Test
  void textThatIsNoBenchFileIsRefusedWithItsPlace() {
    SetupException wrong =
        assertThrows(SetupException.class, () -> edit("least_air: 0.10", "least_air: much"));
    assertTrue(
        wrong.getMessage().matches("bench file:6:16:? mixes.coir.least_air: .*"),
        wrong.getMessage());
  }
}
