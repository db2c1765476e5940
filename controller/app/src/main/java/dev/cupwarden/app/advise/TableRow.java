package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.ObservationDraft;
import dev.cupwarden.core.units.Quoted;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * What the cells of one row say, or of several with the same time, where each weighing has a row of
 * its own.
 */
final class TableRow {
  private final ObservationDraft draft;
  private final Set<String> cups;
  private final Set<String> weighed = new HashSet<>();
  private final List<String> notes = new ArrayList<>();
  private String cup;

  /**
   * @param cups names of the cups known so far
   */
  TableRow(ObservationDraft draft, Set<String> cups) {
    this.draft = draft;
    this.cups = cups;
  }

  ObservationDraft draft() {
    return draft;
  }

  /** What a person wrote beside the numbers; nothing is decided by it. */
  void note(String text) {
    notes.add(text);
  }

  List<String> notes() {
    return List.copyOf(notes);
  }

  /** The cup that the next weight is of. */
  void cup(String name) throws LineRefused {
    TableColumns.requireKnown("cup: " + Quoted.text(name), name, cups, "a cup of this bench");
    if (!weighed.add(name)) {
      throw new LineRefused("cup: %s has two weights at one time".formatted(name));
    }
    cup = name;
  }

  void weight(double massG) throws LineRefused {
    if (cup == null) {
      throw new LineRefused("cup: is missing: expected whose weight it is");
    }
    draft.massG(cup, massG);
    cup = null;
  }
}
