package dev.cupwarden.core.setup;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.time.LocalTime;

/** The part of the day in which water may be given, so that the top of a cup dries before night. */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
@JsonSubTypes({
  @JsonSubTypes.Type(value = Window.Hours.class, name = "hours"),
  @JsonSubTypes.Type(value = Window.Daylight.class, name = "daylight")
})
public sealed interface Window {
  /**
   * Set times of the grower's clock.
   *
   * @param from first minute of the window
   * @param to first minute after it, later than {@code from}
   */
  record Hours(LocalTime from, LocalTime to) implements Window {}

  /** From sunrise to two hours before sunset at the bench's place. */
  record Daylight() implements Window {}
}
