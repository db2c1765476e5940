package dev.cupwarden.core.setup;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/**
 * What a person who edits the text of a bench file asks for, key by key.
 *
 * @param changes orders may make them, one after the other in this order
 * @param refused why no order may make the others, a sentence for each key
 * @param otherText whether what was written differs also in remarks or layout, which no order
 *     changes
 */
public record BenchEdit(List<BenchChange> changes, List<String> refused, boolean otherText) {

  /**
   * The changes that lead from a file to what a person made of its text.
   *
   * @throws SetupException with one sentence, its line and column, where the edited text is no
   *     bench file
   */
  public static BenchEdit of(BenchText now, BenchText edited) throws SetupException {
    edited.read();
    List<BenchChange> wanted = new ArrayList<>();
    compare("", root(now), root(edited), wanted);
    List<BenchChange> changes = new ArrayList<>();
    BenchText text = now;
    Map<BenchChange, String> refused = new LinkedHashMap<>();
    // A key may stand only once another does, such as a feed and the plan that names it.
    for (boolean more = true; more; ) {
      more = false;
      refused.clear();
      for (BenchChange change : List.copyOf(wanted)) {
        try {
          text = text.with(change);
          changes.add(change);
          wanted.remove(change);
          more = true;
        } catch (SetupException why) {
          refused.put(change, why.getMessage());
        }
      }
    }
    return new BenchEdit(
        List.copyOf(changes),
        List.copyOf(refused.values()),
        refused.isEmpty() && !text.yaml().equals(edited.yaml()));
  }

  private static Node root(BenchText text) throws SetupException {
    return YamlText.read(text.file(), text.yaml()).node();
  }

  private static void compare(String path, Node now, Node edited, List<BenchChange> changes) {
    if (now instanceof MappingNode before && edited instanceof MappingNode after) {
      Map<String, Node> was = values(before);
      Map<String, Node> is = values(after);
      was.forEach((key, value) -> compare(below(path, key), value, is.get(key), changes));
      is.forEach(
          (key, value) -> {
            if (!was.containsKey(key)) {
              compare(below(path, key), null, value, changes);
            }
          });
      return;
    }
    JsonNode from = json(now);
    JsonNode to = json(edited);
    if (!from.equals(to)) {
      changes.add(new BenchChange(path, from.toString(), to.toString()));
    }
  }

  private static String below(String path, String key) {
    return path.isEmpty() ? key : path + "." + key;
  }

  private static Map<String, Node> values(MappingNode group) {
    Map<String, Node> values = new LinkedHashMap<>();
    for (NodeTuple pair : group.getValue()) {
      String key = pair.getKeyNode() instanceof ScalarNode scalar ? scalar.getValue() : "";
      values.put(key, pair.getValueNode());
    }
    return values;
  }

  /** Values as they are written; null for a key that is missing. */
  private static JsonNode json(Node node) {
    JsonNodeFactory make = JsonNodeFactory.instance;
    if (node == null || Tag.NULL.equals(node.getTag())) {
      return make.nullNode();
    }
    if (node instanceof MappingNode group) {
      ObjectNode object = make.objectNode();
      values(group).forEach((key, value) -> object.set(key, json(value)));
      return object;
    }
    if (node instanceof SequenceNode list) {
      ArrayNode array = make.arrayNode();
      list.getValue().forEach(element -> array.add(json(element)));
      return array;
    }
    return make.textNode(((ScalarNode) node).getValue());
  }
}
