package dev.cupwarden.core.limits;

import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.watering.Cause;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;

/** What one row of the table of limits is to say around its bound, written down by hand. */
final class Boundary {
  /** A change of the usual pass, and the ruling on it; no reason: free. */
  record Point(String name, Consumer<CaseDraft> change, double atMost, Reason reason) {}

  final String row;
  final List<Point> points = new ArrayList<>();
  private final String code;
  Set<Cause> passedBy = EnumSet.of(Cause.PRIME, Cause.RINSE);

  /** Causes that its test lets through by itself. */
  Set<Cause> freeByTest = EnumSet.noneOf(Cause.class);

  boolean liftable;

  Boundary(String row, String code) {
    this.row = row;
    this.code = code;
  }

  Boundary passedBy(Cause... more) {
    passedBy.addAll(List.of(more));
    return this;
  }

  Boundary passedByNone() {
    passedBy = EnumSet.noneOf(Cause.class);
    return this;
  }

  Boundary freeByTest(Cause... some) {
    freeByTest.addAll(List.of(some));
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
