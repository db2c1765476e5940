package dev.cupwarden.core.setup;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.units.Quoted;
import dev.cupwarden.core.units.Unit;
import java.util.Collection;
import java.util.Optional;
import java.util.Set;

/** The keys of one cup, in a bench file or in an order that adds it. */
public final class CupKeys {
  private static final Range CUTTING = Range.of(0, 1000, Unit.G);

  /** What an order has besides the cup's own keys. */
  private static final Set<String> ENVELOPE =
      Set.of("id", "kind", "by", "issued", "expires", "cup");

  private static final String[] KEYS = {
    "vessel", "mix", "plant", "struck", "stage", "cutting", "lines", "covered", "scale", "valve",
    "probe"
  };

  private CupKeys() {}

  /**
   * Reads the cup that an order of kind {@code add} puts on the bench, by the same checks as in a
   * bench file.
   *
   * @param order an object; its id, kind, by, issued and expires are not looked at
   * @param bench what the cup may refer to
   * @param others the cups that are on it now, whose scales, valves and probes are taken
   * @throws SetupException with one sentence without file and line, such as {@code mix: "cour" is
   *     not a mix of this bench; known: coir-perlite}
   */
  public static Cup fromOrder(JsonNode order, Bench bench, Collection<Cup> others)
      throws SetupException {
    JsonNode cup = order.get("cup");
    if (cup == null || !cup.isTextual()) {
      throw new SetupException("cup: is missing: expected the new cup's name");
    }
    Entry keys = JsonEntries.without(ENVELOPE, order);
    if (!Names.isSafe(cup.textValue())) {
      throw new SetupException(
          "cup: %s cannot be a name on the wire: %s"
              .formatted(Quoted.text(cup.textValue()), Names.RULE));
    }
    Cup added = cup(cup.textValue(), keys, bench, others);
    if (added.wiring().valve().isPresent() && added.wiring().valve().equals(bench.hose().drain())) {
      throw new SetupException(
          "valve: \"%s\" leads to waste, not to a cup".formatted(added.wiring().valve().get()));
    }
    return added;
  }

  /**
   * @param others the cups that hang on the same board
   */
  static Cup cup(String name, Entry written, Bench bench, Collection<Cup> others)
      throws SetupException {
    Section keys = written.section(KEYS);
    Optional<Entry> struck = keys.maybe("struck");
    Optional<Entry> lines = keys.maybe("lines");
    Optional<Entry> covered = keys.maybe("covered");
    return new Cup(
        name,
        keys.need("vessel", "a vessel of this bench")
            .oneOf("a vessel of this bench", bench.vessels().keySet()),
        keys.need("mix", "a mix of this bench")
            .oneOf("a mix of this bench", bench.mixes().keySet()),
        keys.need("plant", "what was struck").text(),
        struck.isPresent() ? Optional.of(struck.get().date()) : Optional.empty(),
        keys.need("stage", "a root stage").stage(),
        keys.need("cutting", "the mass of the cutting").quantity(CUTTING),
        lines.isPresent() ? Optional.of(LineKeys.one(lines.get())) : Optional.empty(),
        covered.isPresent() ? covered.get().trueOrFalse() : bench.climate().covers().all(),
        CupWiringKeys.wiring(keys, bench, others));
  }
}
