package dev.cupwarden.app.loop;

import dev.cupwarden.core.setup.BenchChange;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.SetupException;
import java.util.ArrayList;
import java.util.List;

/**
 * What orders changed of the bench file, laid over the file as it is at a start. A change that the
 * grower has written into the file is over; so is one of a key that the file says otherwise now,
 * and then the file holds.
 *
 * @param text of the file with the changes that go on
 * @param kept those
 * @param words a sentence for a person on each
 */
record ChangesKept(BenchText text, List<BenchChange> kept, List<String> words) {

  static ChangesKept over(BenchText file, List<BenchChange> changes) throws SetupException {
    BenchText text = file;
    List<BenchChange> kept = new ArrayList<>();
    List<String> words = new ArrayList<>();
    for (BenchChange change : changes) {
      try {
        if (file.says(change)) {
          continue;
        }
        text = text.with(change);
        kept.add(change);
        words.add(
            "An order changed %s from %s to %s, and the bench file does not say so yet: the change goes on."
                .formatted(change.path(), change.from(), change.to()));
      } catch (SetupException other) {
        words.add(
            "The bench file has changed, so that an order's change of %s to %s is over (%s)."
                .formatted(change.path(), change.to(), other.getMessage()));
      }
    }
    return new ChangesKept(text, List.copyOf(kept), List.copyOf(words));
  }
}
