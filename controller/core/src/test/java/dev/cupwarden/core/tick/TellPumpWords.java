package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertBook;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;

/** What the alerts of a stopped pump would say of a state, told for the first time. */
final class TellPumpWords {
  private TellPumpWords() {}

  /** None: the empty string. */
  static String of(Story story, String code) {
    BenchState state = story.state;
    BenchDraft draft =
        new BenchDraft(
            story.bench,
            state,
            new dev.cupwarden.core.messages.Observation(
                state.at(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Collections.emptySortedMap(),
                Collections.emptySortedMap(),
                Collections.emptySortedMap(),
                story.leak,
                story.leakUnread,
                false,
                List.of()));
    Conditions conditions = new Conditions(Collections.emptySortedMap());
    TellPump.tell(draft, conditions);
    return AlertBook.judge(
            Collections.emptySortedMap(), conditions, state.at(), Set.of(), Duration.ZERO)
        .changes()
        .stream()
        .filter(alert -> alert.code().equals(code))
        .map(AlertNotice::whatToDo)
        .findFirst()
        .orElse("");
  }
}
