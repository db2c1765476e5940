package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Quoted;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;

/**
 * A group of keys with their values, none of them twice and none unknown.
 *
 * @param self the group as a value of its own
 * @param values in the order of the file
 */
record Section(Entry self, Map<String, Entry> values) {

  /**
   * @param known the keys it may have; null where the grower names them
   * @param onTheWire whether the keys are names that go over the wire
   */
  static Section of(Entry self, List<String> known, boolean onTheWire) throws SetupException {
    if (!(self.node() instanceof MappingNode mapping)) {
      throw self.refuse(
          self.found()
              + " stands where a group of "
              + (known == null ? "names" : "keys")
              + " is expected"
              + (known == null ? "" : "; known: " + Names.list(known)));
    }
    Map<String, Entry> values = new LinkedHashMap<>();
    Map<String, Node> keys = new LinkedHashMap<>();
    for (NodeTuple tuple : mapping.getValue()) {
      String key = key(self, tuple.getKeyNode());
      Entry value = self.below(key, tuple.getValueNode());
      if (known != null && !known.contains(key)) {
        throw value.refuseAt(
            tuple.getKeyNode(),
            Quoted.text(key) + " is not a key here; known: " + Names.list(known));
      }
      if (onTheWire && !Names.isSafe(key)) {
        throw value.refuseAt(
            tuple.getKeyNode(), Quoted.text(key) + " cannot be a name on the wire: " + Names.RULE);
      }
      Node first = keys.putIfAbsent(key, tuple.getKeyNode());
      if (first != null) {
        throw value.refuseAt(tuple.getKeyNode(), "is given twice" + firstAt(first));
      }
      values.put(key, value);
    }
    return new Section(self, Collections.unmodifiableMap(values));
  }

  private static String key(Entry self, Node key) throws SetupException {
    if (key instanceof ScalarNode scalar && scalar.getValue().length() <= 64) {
      return scalar.getValue();
    }
    throw self.refuseAt(key, "a key is not a word of at most 64 characters");
  }

  private static String firstAt(Node first) {
    return first.getStartMark().map(mark -> ", first at " + Entry.lineAndColumn(mark)).orElse("");
  }

  /** A value that must be there. */
  Entry need(String key, String expected) throws SetupException {
    Entry value = values.get(key);
    if (value == null) {
      throw self.below(key, self.node()).refuse("is missing: expected " + expected);
    }
    return value;
  }

  /** A value that may be missing. */
  Optional<Entry> maybe(String key) {
    return Optional.ofNullable(values.get(key));
  }

  /** A number that may be missing. */
  double number(String key, Range range, double usual) throws SetupException {
    Entry value = values.get(key);
    return value == null ? usual : value.number(range);
  }

  /** A quantity, in base units, that may be missing. */
  double quantity(String key, Range range, double usual) throws SetupException {
    Entry value = values.get(key);
    return value == null ? usual : value.quantity(range);
  }
}
