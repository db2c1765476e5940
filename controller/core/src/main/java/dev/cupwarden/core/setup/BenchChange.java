package dev.cupwarden.core.setup;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * One key of a bench file, said otherwise by a person while the bench runs.
 *
 * @param path the keys that lead to it, joined by dots, such as {@code watering.pass}
 * @param from what stands there, as JSON text; {@code null} where the key is missing
 * @param to what stands there from now on, as JSON text; {@code null} takes the key out
 */
public record BenchChange(String path, String from, String to) {
  /** Keys and names that need no quotes in the file. */
  private static final Pattern PATH = Pattern.compile("[A-Za-z0-9][A-Za-z0-9 ._-]{0,199}");

  /** What wires a bench, or names it. */
  private static final Set<String> WIRING = Set.of("bench", "board", "drain");

  private static final Set<String> WIRING_OF_A_CUP = Set.of("scale", "valve", "probe");
  private static final Set<String> CONTENTS = Set.of("feed", "strength");

  /**
   * Refuses a key that no order changes.
   *
   * @throws SetupException with one sentence that says where it is changed instead
   */
  void refuseWhatNoOrderChanges() throws SetupException {
    if (!PATH.matcher(path).matches()) {
      throw new SetupException("path: expected keys joined by dots, such as watering.pass");
    }
    List<String> keys = List.of(path.split("\\.", -1));
    String last = keys.get(keys.size() - 1);
    if (WIRING.contains(keys.get(0))) {
      throw wiring();
    }
    if (keys.get(0).equals("cups")) {
      if (keys.size() < 3) {
        throw refuse("a cup comes by an order add and goes by retire; name one key of it");
      }
      if (keys.stream().anyMatch(WIRING_OF_A_CUP::contains)) {
        throw wiring();
      }
      if (last.equals("stage")) {
        throw refuse("what is seen of the roots is told by an order stage");
      }
      if (last.equals("vessel") || last.equals("mix")) {
        throw refuse("a cup moves by an order repot");
      }
    }
    if (keys.get(0).equals("tanks") && CONTENTS.contains(last)) {
      throw refuse("what a tank holds is told by an order filled");
    }
  }

  /** Whether an order may change that key. */
  static boolean mayChange(String path) {
    try {
      new BenchChange(path, "null", "null").refuseWhatNoOrderChanges();
      return true;
    } catch (SetupException refused) {
      return false;
    }
  }

  /**
   * Refuses what such a change has no business to change, however its key was written.
   *
   * @param before the bench until now
   * @param after the bench that the changed file describes
   */
  void refuseWhatItMayNotTouch(Bench before, Bench after) throws SetupException {
    boolean sameWiring =
        before.name().equals(after.name())
            && before.board().equals(after.board())
            && before.hose().drain().equals(after.hose().drain())
            && before.cups().keySet().equals(after.cups().keySet())
            && before.cups().values().stream()
                .allMatch(cup -> samePlace(cup, after.cups().get(cup.name())))
            && before.tanks().keySet().equals(after.tanks().keySet())
            && before.tanks().values().stream()
                .allMatch(tank -> sameContents(tank, after.tanks().get(tank.name())))
            && after.feeds().keySet().containsAll(before.feeds().keySet());
    if (!sameWiring) {
      throw wiring();
    }
  }

  private static boolean samePlace(Cup was, Cup now) {
    return was.wiring().equals(now.wiring())
        && was.vessel().equals(now.vessel())
        && was.mix().equals(now.mix())
        && was.stage() == now.stage();
  }

  private static boolean sameContents(Tank was, Tank now) {
    return Objects.equals(was.feed(), now.feed()) && was.strength() == now.strength();
  }

  /** With the pump off, by whoever can see it. */
  private SetupException wiring() {
    return refuse("is changed in the bench file only, with the bench stopped");
  }

  SetupException refuse(String why) {
    return new SetupException(path + ": " + why);
  }

  /**
   * This after an earlier one of the same key.
   *
   * @return none where the two undo each other
   */
  public Optional<BenchChange> after(BenchChange earlier) {
    return to.equals(earlier.from())
        ? Optional.empty()
        : Optional.of(new BenchChange(path, earlier.from(), to));
  }
}
