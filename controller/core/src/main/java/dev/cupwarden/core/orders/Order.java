package dev.cupwarden.core.orders;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.season.DayForetold;
import dev.cupwarden.core.setup.BenchChange;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;

/** What a person asked for, read and in range; whether it can be done now is judged later. */
public sealed interface Order {
  /** The name that its receipts carry. */
  String id();

  /** No watering, or no feed, for the bench or one cup. */
  record SetHold(String id, Optional<String> cup, Hold hold) implements Order {}

  /** Ends a cup's hold, or every hold. */
  record Release(String id, Optional<String> cup) implements Order {}

  /** Plain water past the refill and wet lines, a person being there to empty the tray. */
  record Flush(String id, String cup, double ml) implements Order {}

  /**
   * Water now, in passes.
   *
   * @param strength label strength wished for
   * @param lifts limits that the person lifts for this one dose
   */
  record HandDose(String id, String cup, double ml, double strength, Set<String> lifts)
      implements Order {}

  /** What a person saw of the roots. */
  record SeenStage(String id, String cup, RootStage stage) implements Order {}

  /** Watered by hand. */
  record Watered(String id, String cup, double ml, double strength) implements Order {}

  /**
   * Soaked and drained: the weight of this line is its capacity.
   *
   * @param sure whether it is learned however far it is from what was known
   */
  record Drained(String id, String cup, boolean sure) implements Order {}

  /**
   * Takes back what was told by mistake.
   *
   * @param order name of a {@code drained}, {@code watered} or {@code filled}
   */
  record Forget(String id, String order) implements Order {}

  /** Taken off the bench. */
  record Away(String id, String cup) implements Order {}

  /** Put back on the bench. */
  record Back(String id, String cup) implements Order {}

  /**
   * A dome or a bag was put over a cup, or taken off it.
   *
   * @param cup none: over all of them
   */
  record Cover(String id, Optional<String> cup, boolean covered) implements Order {}

  /**
   * A tank was filled or mixed anew.
   *
   * @param ml what is in it now
   * @param feed what was mixed into it, if that was said
   * @param strength label strength, if that was said
   */
  record Filled(String id, String tank, double ml, Optional<String> feed, Optional<Double> strength)
      implements Order {}

  /**
   * What a day outdoors will bring in the hours in which cups would be out.
   *
   * @param day at the bench's place; none: today
   * @param leastC the least air temperature, °C
   * @param mostC the most, °C
   * @param wind if that was said
   */
  record Weather(
      String id,
      Optional<LocalDate> day,
      double leastC,
      double mostC,
      Optional<DayForetold.Wind> wind)
      implements Order {}

  /** Moved to another vessel. */
  record Repot(String id, String cup, String vessel, String mix) implements Order {}

  /** Ends a latch after a person has looked: a cup's, or the pump's. */
  record Clear(String id, Optional<String> cup) implements Order {}

  /**
   * Fills or clears the shared hose through a cup's drip end, into a jug.
   *
   * @param tank where the water comes from; none: plain water
   */
  record Prime(String id, String cup, double ml, Optional<String> tank) implements Order {}

  /** One key of the bench file, said otherwise. */
  record Change(String id, BenchChange change) implements Order {}

  /** Taken out for good. */
  record Retire(String id, String cup, String because) implements Order {}

  /**
   * An open alert is not told again before then.
   *
   * @param alert its code
   * @param tank of one tank only
   */
  record Later(String id, String alert, Optional<String> cup, Optional<String> tank, Instant until)
      implements Order {}

  /** A cup is put on the bench while it runs; its keys are those of a cup in the bench file. */
  record Add(String id, String cup, JsonNode keys) implements Order {}

  /**
   * The same for several cups, done to all of them or to none.
   *
   * @param each one order for each cup, by the cup's name, all with this id
   */
  record ToEach(String id, SortedMap<String, Order> each) implements Order {}

  /** The times that an order over the wire carries; absent in {@code advise}. */
  record Validity(Optional<Instant> issued, Optional<Instant> expires) {
    /** Our choice: what was meant for later than that is ordered later. */
    public static final Duration LONGEST = Duration.ofDays(2);

    /** Clocks of a phone, a host and a bench may differ by so much: our choice. */
    private static final Duration CLOCKS_APART = Duration.ofMinutes(5);

    /**
     * Whether it would be good for too long.
     *
     * @param now where it does not say when it was issued
     */
    public boolean tooLong(Instant now) {
      return expires.isPresent() && expires.get().isAfter(issued.orElse(now).plus(LONGEST));
    }

    /** Whether it says it was issued later than clocks that differ explain. */
    public boolean fromTheFuture(Instant now) {
      return issued.isPresent() && issued.get().isAfter(now.plus(CLOCKS_APART));
    }

    /** Why one that is good for too long is refused. */
    public String tooLongWords() {
      return "expires: an order is good for at most %d days, not to %s"
          .formatted(LONGEST.toDays(), expires.orElseThrow());
    }
  }
}
