package dev.cupwarden.app.notes;

import static java.util.Map.entry;

import java.util.Map;
import java.util.Set;

/**
 * The 40 pins of the single-board computer's header: which line of the processor is on which. As
 * two public tables of it have it alike; a builder holds it against the board's own documentation.
 */
final class HeaderPins {
  static final int PINS = 40;

  static final Map<Integer, Integer> OF_GPIO =
      Map.ofEntries(
          entry(2, 3),
          entry(3, 5),
          entry(4, 7),
          entry(5, 29),
          entry(6, 31),
          entry(7, 26),
          entry(8, 24),
          entry(9, 21),
          entry(10, 19),
          entry(11, 23),
          entry(12, 32),
          entry(13, 33),
          entry(14, 8),
          entry(15, 10),
          entry(16, 36),
          entry(17, 11),
          entry(18, 12),
          entry(19, 35),
          entry(20, 38),
          entry(21, 40),
          entry(22, 15),
          entry(23, 16),
          entry(24, 18),
          entry(25, 22),
          entry(26, 37),
          entry(27, 13));

  static final Set<Integer> GROUND = Set.of(6, 9, 14, 20, 25, 30, 34, 39);
  static final Set<Integer> VOLTS_3V3 = Set.of(1, 17);
  static final Set<Integer> VOLTS_5 = Set.of(2, 4);

  private HeaderPins() {}
}
