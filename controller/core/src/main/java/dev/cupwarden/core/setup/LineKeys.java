package dev.cupwarden.core.setup;

import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** The key {@code lines}: depletions at which water begins, ends, and wilting is near. */
final class LineKeys {
  /** A refill may reach above drained capacity; twice the available water above it is no cup. */
  private static final Range REFILL = Range.of(-1, 1);

  private LineKeys() {}

  /** Of the stages that are listed; the others have the usual lines. */
  static SortedMap<RootStage, StageLines> perStage(Optional<Entry> written) throws SetupException {
    SortedMap<RootStage, StageLines> lines = new TreeMap<>();
    if (written.isPresent()) {
      Section keys = written.get().section(RootStage.words().toArray(String[]::new));
      for (var stage : keys.values().entrySet()) {
        lines.put(RootStage.of(stage.getKey()).orElseThrow(), one(stage.getValue()));
      }
    }
    return lines;
  }

  static StageLines one(Entry written) throws SetupException {
    Section keys = written.section("due", "refill", "dry");
    StageLines lines =
        new StageLines(
            keys.need("due", "a depletion").number(Range.FRACTION),
            keys.need("refill", "a depletion").number(REFILL),
            keys.need("dry", "a depletion").number(Range.FRACTION));
    if (!(lines.refill() < lines.due() && lines.due() < lines.dry())) {
      throw written.refuse(
          "refill %s, due %s and dry %s are not in rising order"
              .formatted(lines.refill(), lines.due(), lines.dry()));
    }
    return lines;
  }
}
