package dev.cupwarden.core.setup;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.cupwarden.core.units.Quoted;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.CollectionNode;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/**
 * The text of a bench file, and the same with one key said otherwise. All else stays as the grower
 * wrote it, remarks too.
 *
 * @param file its name, for sentences
 * @param yaml the text
 */
public record BenchText(String file, String yaml) {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** What needs no quotes in the file, whatever stands around it. */
  private static final Pattern PLAIN = Pattern.compile("[A-Za-z0-9.][A-Za-z0-9 ./%_-]*");

  /**
   * Of the bytes of a file.
   *
   * @throws SetupException where they are not UTF-8 text, or too many
   */
  public static BenchText of(String file, byte[] utf8) throws SetupException {
    return new BenchText(file, YamlText.decode(file, utf8));
  }

  /**
   * The bench that it describes.
   *
   * @throws SetupException with one sentence: where, which key, what was expected
   */
  public Bench read() throws SetupException {
    return BenchFile.read(file, yaml);
  }

  /**
   * The text with that key said otherwise.
   *
   * @throws SetupException with one sentence where no order may change that key, {@code from} no
   *     longer stands there, the bench cannot be so, or the file is written so that the key cannot
   *     be changed alone
   */
  public BenchText with(BenchChange change) throws SetupException {
    change.refuseWhatNoOrderChanges();
    JsonNode from = json(change, "from", change.from());
    JsonNode to = json(change, "to", change.to());
    Found found = find(change);
    if (!found.says(from)) {
      throw change.refuse("from: it says " + found.words() + " now, not " + change.from());
    }
    if (found.says(to)) {
      throw change.refuse("to: it says so already");
    }
    BenchText changed = new BenchText(file, edited(change, found, to));
    if (!changed.find(change).says(to)) {
      throw change.refuse("cannot be changed alone as the file is written: change it there");
    }
    change.refuseWhatItMayNotTouch(read(), changed.read());
    return changed;
  }

  /**
   * The keys that an order may change and that hold one value each, in the order of the file.
   *
   * @throws SetupException where the text is no bench file
   */
  public List<Key> keys() throws SetupException {
    List<Key> keys = new ArrayList<>();
    addKeys("", YamlText.read(file, yaml).node(), keys);
    return List.copyOf(keys);
  }

  /**
   * A key with its value.
   *
   * @param path keys from the top, joined by dots
   * @param value as it is written there, without quotes
   */
  public record Key(String path, String value) {}

  private static void addKeys(String path, Node node, List<Key> keys) {
    if (node instanceof MappingNode group) {
      for (NodeTuple pair : group.getValue()) {
        String key = text(pair.getKeyNode());
        addKeys(path.isEmpty() ? key : path + "." + key, pair.getValueNode(), keys);
      }
    } else if (node instanceof ScalarNode scalar && BenchChange.mayChange(path)) {
      keys.add(new Key(path, scalar.getValue()));
    }
  }

  /**
   * Whether the file says at that key what the change asks for.
   *
   * @throws SetupException where the text is no bench file
   */
  public boolean says(BenchChange change) throws SetupException {
    return find(change).says(json(change, "to", change.to()));
  }

  private static JsonNode json(BenchChange change, String field, String text)
      throws SetupException {
    try {
      return JSON.readTree(text);
    } catch (JsonProcessingException broken) {
      throw change.refuse(field + ": expected JSON, not " + Quoted.text(text));
    }
  }

  /**
   * A key's place.
   *
   * @param parent the mapping that it stands in, or would
   * @param index among the parent's keys; -1 where it is missing
   * @param rest keys below the parent that lead to it
   */
  private record Found(MappingNode parent, int index, String rest) {
    Node value() {
      return parent.getValue().get(index).getValueNode();
    }

    boolean says(JsonNode json) {
      return index < 0 ? json.isNull() : matches(value(), json);
    }

    String words() {
      return index < 0 ? "nothing" : new Entry(null, rest, value()).found();
    }
  }

  private Found find(BenchChange change) throws SetupException {
    Node node = YamlText.read(file, yaml).node();
    String rest = change.path();
    while (node instanceof MappingNode parent) {
      int index = keyOf(parent, rest);
      if (index < 0) {
        return new Found(parent, index, rest);
      }
      String key = text(parent.getValue().get(index).getKeyNode());
      if (key.length() == rest.length()) {
        return new Found(parent, index, rest);
      }
      node = parent.getValue().get(index).getValueNode();
      rest = rest.substring(key.length() + 1);
    }
    throw change.refuse("there is no key " + Quoted.text(rest) + " below a single value or a list");
  }

  /** Of the longest key that the path begins with, since names may hold dots. */
  private static int keyOf(MappingNode mapping, String path) {
    int found = -1;
    int longest = -1;
    for (int i = 0; i < mapping.getValue().size(); i++) {
      String key = text(mapping.getValue().get(i).getKeyNode());
      boolean leads = path.equals(key) || path.startsWith(key + ".");
      if (leads && key.length() > longest) {
        found = i;
        longest = key.length();
      }
    }
    return found;
  }

  private static boolean matches(Node node, JsonNode json) {
    if (json.isNull()) {
      return Tag.NULL.equals(node.getTag());
    }
    if (node instanceof ScalarNode scalar) {
      return json.isValueNode() && sameText(scalar.getValue(), json.asText());
    }
    if (node instanceof SequenceNode list && json.isArray()) {
      boolean same = list.getValue().size() == json.size();
      for (int i = 0; same && i < json.size(); i++) {
        same = matches(list.getValue().get(i), json.get(i));
      }
      return same;
    }
    if (node instanceof MappingNode group && json.isObject()) {
      return group.getValue().size() == json.size()
          && group.getValue().stream()
              .allMatch(
                  pair ->
                      json.has(text(pair.getKeyNode()))
                          && matches(pair.getValueNode(), json.get(text(pair.getKeyNode()))));
    }
    return false;
  }

  /** As text, or as numbers: 0.50 is 0.5. */
  private static boolean sameText(String written, String asked) {
    if (written.equals(asked)) {
      return true;
    }
    try {
      return new BigDecimal(written).compareTo(new BigDecimal(asked)) == 0;
    } catch (NumberFormatException words) {
      return false;
    }
  }

  private static String text(Node key) {
    return key instanceof ScalarNode scalar ? scalar.getValue() : "";
  }

  private String edited(BenchChange change, Found found, JsonNode to) throws SetupException {
    if (found.index() < 0) {
      return added(found, to);
    }
    Node value = found.value();
    if (isBlock(value) && yaml.substring(start(value), end(value)).contains("#")) {
      throw change.refuse(
          "holds remarks that would be lost: name one key of it, or change the file");
    }
    if (to.isNull()) {
      return removed(change, found);
    }
    int start = start(value);
    boolean bare = start > 0 && !Character.isWhitespace(yaml.charAt(start - 1));
    return yaml.substring(0, start) + (bare ? " " : "") + flow(to) + yaml.substring(end(value));
  }

  private String added(Found found, JsonNode to) {
    List<String> keys = new ArrayList<>(Arrays.asList(found.rest().split("\\.")));
    String value = flow(to);
    for (int i = keys.size() - 1; i > 0; i--) {
      value = "{" + keys.get(i) + ": " + value + "}";
    }
    String pair = keys.get(0) + ": " + value;
    List<NodeTuple> others = found.parent().getValue();
    if (others.isEmpty()) {
      int inside = end(found.parent()) - 1;
      return yaml.substring(0, inside) + pair + yaml.substring(inside);
    }
    if (found.parent().getFlowStyle() == FlowStyle.FLOW) {
      int after = end(others.get(others.size() - 1).getValueNode());
      return yaml.substring(0, after) + ", " + pair + yaml.substring(after);
    }
    int before = start(others.get(0).getKeyNode());
    int column = others.get(0).getKeyNode().getStartMark().map(Mark::getColumn).orElse(0);
    String indent = " ".repeat(column);
    return yaml.substring(0, before) + pair + "\n" + indent + yaml.substring(before);
  }

  private String removed(BenchChange change, Found found) throws SetupException {
    List<NodeTuple> pairs = found.parent().getValue();
    int key = start(pairs.get(found.index()).getKeyNode());
    int valueEnd = end(found.value());
    if (found.parent().getFlowStyle() == FlowStyle.FLOW) {
      boolean last = found.index() == pairs.size() - 1;
      int from = last && found.index() > 0 ? end(pairs.get(found.index() - 1).getValueNode()) : key;
      int to = last ? valueEnd : start(pairs.get(found.index() + 1).getKeyNode());
      return yaml.substring(0, from) + yaml.substring(to);
    }
    int lineStart = yaml.lastIndexOf('\n', key - 1) + 1;
    if (!yaml.substring(lineStart, key).isBlank()) {
      throw change.refuse("cannot be taken out alone as the file is written: change it there");
    }
    return yaml.substring(0, lineStart) + yaml.substring(valueEnd);
  }

  private int start(Node node) {
    return index(node.getStartMark());
  }

  /** Of a block where its last value ends: its own mark is where the next key begins. */
  private int end(Node node) {
    if (isBlock(node)) {
      CollectionNode<?> block = (CollectionNode<?>) node;
      Object last = block.getValue().get(block.getValue().size() - 1);
      return end(last instanceof NodeTuple pair ? pair.getValueNode() : (Node) last);
    }
    return index(node.getEndMark());
  }

  /** Written over several lines, without braces or brackets. */
  private static boolean isBlock(Node node) {
    return node instanceof CollectionNode<?> group
        && group.getFlowStyle() != FlowStyle.FLOW
        && !group.getValue().isEmpty();
  }

  /** A mark counts characters of Unicode, a Java text halves of them. */
  private int index(Optional<Mark> mark) {
    int skipped = yaml.startsWith("\uFEFF") ? 1 : 0;
    return yaml.offsetByCodePoints(skipped, mark.orElseThrow().getIndex());
  }

  /** On one line, as it may stand anywhere in the file. */
  private static String flow(JsonNode json) {
    if (json.isObject()) {
      return json.properties().stream()
          .map(field -> scalar(field.getKey()) + ": " + flow(field.getValue()))
          .collect(Collectors.joining(", ", "{", "}"));
    }
    if (json.isArray()) {
      List<String> elements = new ArrayList<>();
      json.forEach(element -> elements.add(flow(element)));
      return "[" + String.join(", ", elements) + "]";
    }
    return json.isTextual() ? scalar(json.textValue()) : json.toString();
  }

  private static String scalar(String text) {
    boolean plain = PLAIN.matcher(text).matches() && text.equals(text.strip());
    return plain ? text : JSON.getNodeFactory().textNode(text).toString();
  }
}
