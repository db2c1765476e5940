package dev.cupwarden.app.loop;

import java.util.ArrayList;
import java.util.List;

/** Whether something grows, by looks at even distances. */
final class Growth {
  private final List<Double> looks = new ArrayList<>();

  void add(double look) {
    looks.add(look);
  }

  /** Whether there were enough looks to tell. */
  boolean known() {
    return looks.size() >= 4;
  }

  /** The mean of the later half over that of the earlier one. */
  double ratio() {
    int half = looks.size() / 2;
    return mean(looks.subList(looks.size() - half, looks.size())) / mean(looks.subList(0, half));
  }

  private static double mean(List<Double> some) {
    return some.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
  }
}
