package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.Happening;
import dev.cupwarden.core.messages.AlertNotice;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Alerts about the controller itself: what the core cannot know, told in the same words. */
final class OwnAlerts {
  /** The codes that it may be told by; the core has others. */
  static final List<String> CODES =
      List.of("clock", "store-full", "pump-running-on", "input-set-aside", "two-controllers");

  private final Map<String, AlertNotice> raised = new TreeMap<>();
  private final List<AlertNotice> untold = new ArrayList<>();

  /** It was raised before this start and not cleared: what no longer is so will be. */
  void stands(AlertNotice notice) {
    raised.put(notice.code(), notice);
  }

  void raise(String code, Instant at, double value, double threshold, String whatToDo) {
    if (!raised.containsKey(code)) {
      AlertNotice notice = new AlertNotice(code, null, "raised", at, value, threshold, whatToDo);
      raised.put(code, notice);
      untold.add(notice);
    }
  }

  void clear(String code, double value) {
    AlertNotice was = raised.remove(code);
    if (was != null) {
      untold.add(
          new AlertNotice(
              code, null, "cleared", was.since(), value, was.threshold(), was.whatToDo()));
    }
  }

  /** What has changed and not been put down yet; {@link #told} empties it. */
  List<Happening> untold(Instant at) {
    return untold.stream().map(notice -> Happening.of(at, notice)).toList();
  }

  void told() {
    untold.clear();
  }
}
