package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.RootStage;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Remembers what it was asked and answers with the cups that were weighed. */
final class EchoAdviser implements Adviser {
  final List<Observation> seen = new ArrayList<>();
  private final Set<String> cups = new TreeSet<>(Set.of("A1", "A2"));
  private Instant last = Instant.MIN;

  @Override
  public Set<String> cups() {
    return cups;
  }

  @Override
  public Advice advise(Observation next, boolean brief) throws LineRefused {
    if (!next.at().isAfter(last)) {
      throw new LineRefused("at: goes back");
    }
    if (next.leak()) {
      throw new IllegalStateException("a fault");
    }
    last = next.at();
    seen.add(next);
    cups.addAll(next.massG().keySet());
    var reports = new TreeMap<String, Advice.CupReport>();
    for (String cup : next.massG().keySet()) {
      reports.put(
          cup,
          new Advice.CupReport(
              CupActivity.STEADY,
              null,
              null,
              null,
              null,
              null,
              true,
              RootStage.STRUCK,
              0,
              null,
              List.of()));
    }
    return new Advice(next.at(), List.of(), List.of(), List.of(), brief ? null : reports);
  }
}
