package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.PropertyNamingStrategies.NamingBase;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.util.Map;
import java.util.Objects;

/**
 * How a record differs from an earlier one of its kind, as a flat map from the path of a component
 * ({@code estimate.filter.mass_g}) to its value now. A record within a record is gone into while it
 * is there before and after; anything else that differs is told whole. Records never change, so
 * what is the very same object need not be looked into.
 */
final class RecordChanges {
  private static final NamingBase NAMES = (NamingBase) PropertyNamingStrategies.SNAKE_CASE;

  private final Component[] components;

  private RecordChanges(Component[] components) {
    this.components = components;
  }

  static RecordChanges of(Class<? extends Record> kind) {
    return new RecordChanges(components(kind, ""));
  }

  private static Component[] components(Class<?> kind, String prefix) {
    RecordComponent[] found = kind.getRecordComponents();
    Component[] components = new Component[found.length];
    for (int i = 0; i < found.length; i++) {
      components[i] = Component.of(found[i], prefix);
    }
    return components;
  }

  /**
   * One component of a record.
   *
   * @param inner its own components where it is a record; null where it is not
   */
  private record Component(String path, Method accessor, Component[] inner) {
    static Component of(RecordComponent component, String prefix) {
      String path = prefix + NAMES.translate(component.getName());
      Method accessor = component.getAccessor();
      accessor.setAccessible(true);
      Class<?> type = component.getType();
      return new Component(path, accessor, type.isRecord() ? components(type, path + ".") : null);
    }

    Object of(Object owner) {
      try {
        return accessor.invoke(owner);
      } catch (IllegalAccessException | InvocationTargetException e) {
        throw new IllegalStateException("no value of " + path, e);
      }
    }
  }

  /** Writes the map. */
  void write(Record before, Record now, JsonGenerator to) throws IOException {
    to.writeStartObject();
    write(components, before, now, to);
    to.writeEndObject();
  }

  private static void write(Component[] components, Object before, Object now, JsonGenerator to)
      throws IOException {
    if (before == now) {
      return;
    }
    for (Component component : components) {
      Object was = component.of(before);
      Object is = component.of(now);
      if (component.inner() != null && was != null && is != null) {
        write(component.inner(), was, is, to);
      } else if (!Objects.equals(was, is)) {
        to.writeFieldName(component.path());
        writeValue(is, to);
      }
    }
  }

  /** The usual kinds of value at once, without asking the mapper how. */
  private static void writeValue(Object value, JsonGenerator to) throws IOException {
    if (value instanceof Double number) {
      to.writeNumber(number);
    } else if (value instanceof Instant at && at.getNano() == 0) {
      to.writeNumber(at.getEpochSecond());
    } else {
      to.writePOJO(value);
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
          throw new IOException("a change of " + path + " has no place in what it changes");
        }
        owner = inner;
        from = dot + 1;
      }
      owner.set(path.substring(from), change.getValue());
    }
  }
}
