package dev.cupwarden.simulator.world;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.IntPredicate;

/** Decides when somebody comes to the bench and what they do there; it is done by others. */
public interface Person {
  /** Whether the person is on a journey. */
  boolean away(LocalDate day);

  /**
   * Whether they come to the bench within these minutes; asked once a tick, in order.
   *
   * @param reported whether an alert asks for anything to be mended
   */
  boolean comes(Instant at, int tickMin, BooleanSupplier reported);

  /**
   * What they do at one visit.
   *
   * @param cups all cups
   * @param present which stand on the bench now
   * @param told the stage each cup was last said to have, by ordinal
   * @param reported which cups an alert asks to be mended
   */
  List<Act> visit(
      List<? extends TrueCup> cups, IntPredicate present, int[] told, IntPredicate reported);
}
