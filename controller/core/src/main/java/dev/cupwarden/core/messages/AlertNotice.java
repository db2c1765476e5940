package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.Instant;
import java.util.List;

/**
 * An alert's change of state, or an open alert told again: one part for each field that the wire
 * has of it.
 *
 * @param code the alert's name
 * @param cup whose; absent for the whole bench
 * @param state {@code raised} or {@code cleared}
 * @param since when it was first so
 * @param value what was found
 * @param threshold what it was held against
 * @param whatToDo one sentence for the person
 * @param tank which; absent where it is of no tank
 * @param cups that it stands for, in order of name; empty where it is of one cup or of none
 * @param again whether it was open before: told again, or anew since what it says has changed
 * @param severity rises while what it tells of grows worse; 0 as it begins
 * @param bound whether {@code value} is a bound that one in twenty exceeds, not what was measured
 */
public record AlertNotice(
    String code,
    @JsonInclude(JsonInclude.Include.NON_NULL) String cup,
    String state,
    Instant since,
    double value,
    double threshold,
    @JsonProperty("do") String whatToDo,
    @JsonInclude(JsonInclude.Include.NON_NULL) String tank,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> cups,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean again,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) int severity,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean bound) {

  public AlertNotice {
    cups = cups == null ? List.of() : List.copyOf(cups);
  }

  /** Of one cup or the whole bench, as it begins or ends. */
  public AlertNotice(
      String code,
      String cup,
      String state,
      Instant since,
      double value,
      double threshold,
      String whatToDo) {
    this(code, cup, state, since, value, threshold, whatToDo, null, List.of(), false, 0, false);
  }

  /** What is absent is false, 0 or empty, also to a reader that lets no number be null. */
  @JsonCreator
  static AlertNotice read(
      @JsonProperty("code") String code,
      @JsonProperty("cup") String cup,
      @JsonProperty("state") String state,
      @JsonProperty("since") Instant since,
      @JsonProperty("value") double value,
      @JsonProperty("threshold") double threshold,
      @JsonProperty("do") String whatToDo,
      @JsonProperty("tank") String tank,
      @JsonProperty("cups") List<String> cups,
      @JsonProperty("again") Boolean again,
      @JsonProperty("severity") Integer severity,
      @JsonProperty("bound") Boolean bound) {
    return new AlertNotice(
        code,
        cup,
        state,
        since,
        value,
        threshold,
        whatToDo,
        tank,
        cups,
        Boolean.TRUE.equals(again),
        severity == null ? 0 : severity,
        Boolean.TRUE.equals(bound));
  }

  /** That it has ended, in the words of then. */
  public AlertNotice over() {
    return new AlertNotice(
        code, cup, "cleared", since, value, threshold, whatToDo, tank, cups, false, 0, bound);
  }

  /** The same, told to people who were told before. */
  public AlertNotice toldAgain() {
    return new AlertNotice(
        code, cup, state, since, value, threshold, whatToDo, tank, cups, true, severity, bound);
  }
}
