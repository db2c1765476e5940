package dev.cupwarden.core.setup;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/** JSON as entries without a place in a file, so that one set of checks serves both. */
final class JsonEntries {
  private JsonEntries() {}

  /** The fields of an object but for some. */
  static Entry without(Set<String> left, JsonNode object) {
    List<NodeTuple> tuples = new ArrayList<>();
    object
        .properties()
        .forEach(
            field -> {
              if (!left.contains(field.getKey())) {
                tuples.add(tuple(field.getKey(), field.getValue()));
              }
            });
    return new Entry(null, "", new MappingNode(Tag.MAP, tuples, FlowStyle.FLOW));
  }

  private static NodeTuple tuple(String key, JsonNode value) {
    return new NodeTuple(new ScalarNode(Tag.STR, key, ScalarStyle.DOUBLE_QUOTED), node(value));
  }

  private static Node node(JsonNode value) {
    return switch (value.getNodeType()) {
      case OBJECT -> without(Set.of(), value).node();
      case ARRAY -> {
        List<Node> elements = new ArrayList<>();
        value.forEach(element -> elements.add(node(element)));
        yield new SequenceNode(Tag.SEQ, elements, FlowStyle.FLOW);
      }
      case STRING -> new ScalarNode(Tag.STR, value.textValue(), ScalarStyle.DOUBLE_QUOTED);
      // Never Tag.INT: a YAML file may name a vessel 1, JSON has to say "1".
      case NUMBER -> new ScalarNode(Tag.FLOAT, value.asText(), ScalarStyle.PLAIN);
      case BOOLEAN -> new ScalarNode(Tag.BOOL, value.asText(), ScalarStyle.PLAIN);
      default -> new ScalarNode(Tag.NULL, "null", ScalarStyle.PLAIN);
    };
  }
}
