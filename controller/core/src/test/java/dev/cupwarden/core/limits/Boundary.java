package dev.cupwarden.core.limits;

import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.watering.Cause;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;

/** What one clause of the table of limits is to say around its bound, written down by hand. */
final class Boundary {
  /** A change of the usual pass, and the ruling on it; no reason: free. */
  record Point(String name, Consumer<CaseDraft> change, double atMost, Reason reason) {}

  final String row;
  final List<Point> points = new ArrayList<>();
  private final String code;
  Set<Cause> passedBy = EnumSet.of(Cause.PRIME, Cause.RINSE);

  /** Causes that another clause of the row holds at the same points. */
  Set<Cause> alsoBy = EnumSet.noneOf(Cause.class);

  /** Whether it leaves something in every case: a cap that never comes to nothing. */
  boolean neverHolds;

  boolean liftable;

  /**
   * @param row code and limit, as the table's clause gives them
   */
  Boundary(String row) {
    this.row = row;
    this.code = row.substring(0, row.indexOf(' '));
  }

  Boundary passedBy(Cause... more) {
    passedBy.addAll(List.of(more));
    return this;
  }

  Boundary passedByNone() {
    passedBy = EnumSet.noneOf(Cause.class);
    return this;
  }

  Boundary onlyFor(Cause... those) {
    passedBy = EnumSet.complementOf(EnumSet.copyOf(List.of(those)));
    return this;
  }

  Boundary alsoBy(Cause... some) {
    alsoBy.addAll(List.of(some));
    return this;
  }

  Boundary neverHolds() {
    neverHolds = true;
    return this;
  }

  Boundary liftable() {
    liftable = true;
    return this;
  }

  Boundary free(String name, Consumer<CaseDraft> change) {
    points.add(new Point(name, change, Double.POSITIVE_INFINITY, null));
    return this;
  }

  Boundary held(String name, Consumer<CaseDraft> change, double value, double bound, String unit) {
    return held(name, change, value, bound, unit, "");
  }

  Boundary held(
      String name,
      Consumer<CaseDraft> change,
      double value,
      double bound,
      String unit,
      String detail) {
    return capped(name, change, 0.0, value, bound, unit, detail);
  }

  Boundary capped(
      String name,
      Consumer<CaseDraft> change,
      double atMost,
      double value,
      double bound,
      String unit,
      String detail) {
    points.add(new Point(name, change, atMost, new Reason(code, value, bound, unit, detail)));
    return this;
  }
}
