package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Unit;
import java.util.Collection;
import java.util.Optional;
import org.snakeyaml.engine.v2.nodes.ScalarNode;

/** The keys {@code hose} and {@code drain}. */
final class HoseKeys {
  /** Beyond that no pass of a bench would reach a cup: our choice. */
  private static final Range VOLUME = Range.of(0, 100, Unit.ML);

  private static final Range LENGTH = Range.of(0, 10_000, Unit.MM);
  private static final Range BORE = Range.of(1, 20, Unit.MM);

  private HoseKeys() {}

  /**
   * What is shared: its volume as weighed, or a tube's length and bore.
   *
   * @param board as the file has it, for the valve that drains
   */
  static HoseRules hose(Optional<Entry> hose, Optional<Entry> drain, Optional<BoardWiring> board)
      throws SetupException {
    double volumeMl = hose.isPresent() ? volumeMl(hose.get()) : 0.0;
    Optional<String> valve =
        drain.isPresent() ? Optional.of(valve(drain.get(), board)) : Optional.empty();
    return new HoseRules(volumeMl, hose.isPresent(), valve);
  }

  private static double volumeMl(Entry written) throws SetupException {
    if (written.node() instanceof ScalarNode) {
      return written.quantity(VOLUME);
    }
    Section keys = written.section("length", "bore");
    double lengthMm = keys.need("length", "such as 1.2 m").quantity(LENGTH);
    double boreMm = keys.need("bore", "its inner diameter, such as 3 mm").quantity(BORE);
    double volumeMl = Math.PI / 4.0 * boreMm * boreMm * lengthMm / 1000.0;
    if (!VOLUME.holds(volumeMl)) {
      throw written.refuse("comes to %.0f mL: expected %s".formatted(volumeMl, VOLUME.words()));
    }
    return volumeMl;
  }

  private static String valve(Entry written, Optional<BoardWiring> board) throws SetupException {
    String name = written.safeName();
    if (board.isPresent()) {
      written.oneOf("a valve of this bench", board.get().valves().keySet());
      Optional<String> tank = board.get().valves().get(name).tank();
      if (tank.isPresent()) {
        throw written.refuse(written.found() + " is the valve of the tank " + tank.get());
      }
    }
    return name;
  }

  /** The way to waste is no cup's, nor is it called like one. */
  static void refuseShared(Optional<Entry> drain, Collection<Cup> cups) throws SetupException {
    if (drain.isEmpty()) {
      return;
    }
    String name = drain.get().safeName();
    for (Cup cup : cups) {
      if (cup.name().equals(name) || cup.wiring().valve().filter(name::equals).isPresent()) {
        throw drain.get().refuse(drain.get().found() + " belongs to the cup " + cup.name());
      }
    }
  }
}
