package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.PropertyNamingStrategies.NamingBase;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.lang.invoke.LambdaMetafactory;
import java.lang.invoke.MethodHandle;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.MethodType;
import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/**
 * How a record differs from an earlier one of its kind, as a flat map from the path of a component
 * ({@code estimate.filter.mass_g}) to its value now. A record within a record is gone into while it
 * is there before and after, and of a list only its ends are told or the few elements that differ;
 * anything else that differs is told whole. Records never change, so what is the very same object
 * need not be looked into.
 */
final class RecordChanges {
  private static final NamingBase NAMES = (NamingBase) PropertyNamingStrategies.SNAKE_CASE;

  /** After the path of a list of which only its beginning and end are told. */
  private static final String ENDS = "[]";

  /** After the path of a list of which some elements are told, each after its index. */
  private static final String ELEMENTS = "[=]";

  private final List<Part> parts;

  private RecordChanges(List<Part> parts) {
    this.parts = parts;
  }

  static RecordChanges of(Class<? extends Record> kind) {
    return new RecordChanges(parts(kind, ""));
  }

  /** Writes the map. */
  void write(Record before, Record now, JsonGenerator to) throws IOException {
    to.writeStartObject();
    writeAll(parts, before, now, to);
    to.writeEndObject();
  }

  private static void writeAll(List<Part> parts, Object before, Object now, JsonGenerator to)
      throws IOException {
    if (before != now) {
      for (Part part : parts) {
        part.write(before, now, to);
      }
    }
  }

  /** One component, which writes its own change. */
  private interface Part {
    void write(Object before, Object now, JsonGenerator to) throws IOException;
  }

  /** Most are numbers; they are compared by their bits and never boxed. */
  private record NumberPart(String path, ToDoubleFunction<Object> number) implements Part {
    @Override
    public void write(Object before, Object now, JsonGenerator to) throws IOException {
      double is = number.applyAsDouble(now);
      if (Double.compare(number.applyAsDouble(before), is) != 0) {
        to.writeFieldName(path);
        to.writeNumber(is);
      }
    }
  }

  private record ValuePart(String path, Function<Object, Object> value) implements Part {
    @Override
    public void write(Object before, Object now, JsonGenerator to) throws IOException {
      tell(path, value.apply(before), value.apply(now), to);
    }

    static void tell(String path, Object was, Object is, JsonGenerator to) throws IOException {
      if (!Objects.equals(was, is)) {
        to.writeFieldName(path);
        to.writePOJO(is);
      }
    }
  }

  private record TimePart(String path, Function<Object, Object> time) implements Part {
    @Override
    public void write(Object before, Object now, JsonGenerator to) throws IOException {
      Object is = time.apply(now);
      if (!Objects.equals(time.apply(before), is)) {
        to.writeFieldName(path);
        Cbor.writeTime((Instant) is, to);
      }
    }
  }

  /**
   * A list that goes on at its end and is forgotten from its start: told is how many of its first
   * elements are gone, and then those that were added. Of one in whose middle little changed those
   * elements are told.
   */
  private record ListPart(String path, Function<Object, Object> list) implements Part {
    /** More of a list than this part is told by its ends, which say the whole of it at worst. */
    private static final double FEW = 0.25;

    @Override
    public void write(Object before, Object now, JsonGenerator to) throws IOException {
      List<?> was = (List<?>) list.apply(before);
      List<?> is = (List<?>) list.apply(now);
      if (was == null || is == null) {
        ValuePart.tell(path, was, is, to);
      } else if (was != is) {
        int differ = was.size() == is.size() ? differing(was, is) : is.size() + 1;
        if (differ > FEW * is.size()) {
          writeEnds(was, is, to);
        } else if (differ > 0) {
          writeElements(was, is, to);
        }
      }
    }

    private static int differing(List<?> was, List<?> is) {
      int differing = 0;
      for (int i = 0; i < is.size(); i++) {
        differing += Objects.equals(was.get(i), is.get(i)) ? 0 : 1;
      }
      return differing;
    }

    private void writeElements(List<?> was, List<?> is, JsonGenerator to) throws IOException {
      to.writeFieldName(path + ELEMENTS);
      to.writeStartArray();
      for (int i = 0; i < is.size(); i++) {
        if (!Objects.equals(was.get(i), is.get(i))) {
          to.writeNumber(i);
          to.writePOJO(is.get(i));
        }
      }
      to.writeEndArray();
    }

    private void writeEnds(List<?> was, List<?> is, JsonGenerator to) throws IOException {
      int gone = 0;
      while (!goesOn(was, gone, is)) {
        gone++;
      }
      to.writeFieldName(path + ENDS);
      to.writeStartArray();
      to.writeNumber(gone);
      for (int i = was.size() - gone; i < is.size(); i++) {
        to.writePOJO(is.get(i));
      }
      to.writeEndArray();
    }

    private static boolean goesOn(List<?> was, int gone, List<?> is) {
      int kept = was.size() - gone;
      if (kept > is.size()) {
        return false;
      }
      for (int i = 0; i < kept; i++) {
        if (!Objects.equals(was.get(gone + i), is.get(i))) {
          return false;
        }
      }
      return true;
    }
  }

  private record RecordPart(String path, Function<Object, Object> record, List<Part> parts)
      implements Part {
    @Override
    public void write(Object before, Object now, JsonGenerator to) throws IOException {
      Object was = record.apply(before);
      Object is = record.apply(now);
      if (was == null || is == null) {
        ValuePart.tell(path, was, is, to);
      } else {
        writeAll(parts, was, is, to);
      }
    }
  }

  private static List<Part> parts(Class<?> kind, String prefix) {
    List<Part> parts = new ArrayList<>();
    for (RecordComponent component : kind.getRecordComponents()) {
      String path = prefix + NAMES.translate(component.getName());
      Class<?> type = component.getType();
      if (type == double.class) {
        parts.add(new NumberPart(path, numberOf(component)));
      } else if (type == Instant.class) {
        parts.add(new TimePart(path, valueOf(component)));
      } else if (type == List.class) {
        parts.add(new ListPart(path, valueOf(component)));
      } else if (type.isRecord()) {
        parts.add(new RecordPart(path, valueOf(component), parts(type, path + ".")));
      } else {
        parts.add(new ValuePart(path, valueOf(component)));
      }
    }
    return List.copyOf(parts);
  }

  @SuppressWarnings("unchecked")
  private static Function<Object, Object> valueOf(RecordComponent component) {
    return (Function<Object, Object>) asked(component, Function.class, "apply", Object.class);
  }

  @SuppressWarnings("unchecked")
  private static ToDoubleFunction<Object> numberOf(RecordComponent component) {
    return (ToDoubleFunction<Object>)
        asked(component, ToDoubleFunction.class, "applyAsDouble", double.class);
  }

  /** An accessor as a call that is written out: each is asked some hundred times a tick. */
  private static Object asked(
      RecordComponent component, Class<?> function, String method, Class<?> result) {
    try {
      MethodHandles.Lookup lookup =
          MethodHandles.privateLookupIn(component.getDeclaringRecord(), MethodHandles.lookup());
      MethodHandle accessor = lookup.unreflect(component.getAccessor());
      MethodType type = result.isPrimitive() ? accessor.type() : accessor.type().wrap();
      return LambdaMetafactory.metafactory(
              lookup,
              method,
              MethodType.methodType(function),
              MethodType.methodType(result, Object.class),
              accessor,
              type)
          .getTarget()
          .invoke();
    } catch (Throwable e) {
      throw new IllegalStateException("no value of " + component, e);
    }
  }

  /**
   * Puts changes into the record they were told against.
   *
   * @throws IOException when one of them has no place in it
   */
  static void putInto(ObjectNode record, JsonNode changes) throws IOException {
    for (Map.Entry<String, JsonNode> change : changes.properties()) {
      String path = change.getKey();
      ObjectNode owner = record;
      int from = 0;
      for (int dot = path.indexOf('.'); dot >= 0; dot = path.indexOf('.', from)) {
        if (!(owner.get(path.substring(from, dot)) instanceof ObjectNode inner)) {
          throw noPlace(path);
        }
        owner = inner;
        from = dot + 1;
      }
      String name = path.substring(from);
      if (name.endsWith(ENDS)) {
        String list = name.substring(0, name.length() - ENDS.length());
        owner.set(list, goneOn(path, owner.get(list), change.getValue()));
      } else if (name.endsWith(ELEMENTS)) {
        String list = name.substring(0, name.length() - ELEMENTS.length());
        owner.set(list, changed(path, owner.get(list), change.getValue()));
      } else {
        owner.set(name, change.getValue());
      }
    }
  }

  private static IOException noPlace(String path) {
    return new IOException("a change of " + path + " has no place in what it changes");
  }

  private static JsonNode goneOn(String path, JsonNode was, JsonNode change) throws IOException {
    int gone = change.path(0).asInt(-1);
    if (!(was instanceof ArrayNode list) || gone < 0 || gone > list.size()) {
      throw noPlace(path);
    }
    ArrayNode now = list.arrayNode();
    for (int i = gone; i < list.size(); i++) {
      now.add(list.get(i));
    }
    for (int i = 1; i < change.size(); i++) {
      now.add(change.get(i));
    }
    return now;
  }

  private static JsonNode changed(String path, JsonNode was, JsonNode change) throws IOException {
    if (!(was instanceof ArrayNode list) || change.size() % 2 != 0) {
      throw noPlace(path);
    }
    for (int i = 0; i < change.size(); i += 2) {
      int index = change.get(i).asInt(-1);
      if (index < 0 || index >= list.size()) {
        throw noPlace(path);
      }
      list.set(index, change.get(i + 1));
    }
    return list;
  }
}
