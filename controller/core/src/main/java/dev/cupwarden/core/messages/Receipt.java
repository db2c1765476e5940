package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.List;

/**
 * What became of an order.
 *
 * @param id the order's; null where it had none that could be read
 * @param outcome {@code taken}, {@code refused} or {@code done}
 * @param why a sentence, where there is something to say
 * @param dryBefore cups that will be dry before a hold ends
 * @param capacity what a drained cup weighed and was thought to; null for other orders. A refusal
 *     with it is a question: the same order with {@code sure} learns the weight all the same
 * @param cups what became of it at each of them, where the order named several
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Receipt(
    String id,
    String outcome,
    String why,
    List<String> dryBefore,
    Capacity capacity,
    List<AtCup> cups) {
  /**
   * A weight at capacity, to a tenth of a gram.
   *
   * @param weighedG as weighed now, g
   * @param believedG as believed before, g
   * @param by who had taught that: {@code prediction}, {@code plateau} or {@code weighing}
   */
  public record Capacity(double weighedG, double believedG, String by) {
    public static Capacity of(double weighedG, double believedG, String by) {
      return new Capacity(
          Math.rint(weighedG * 10.0) / 10.0, Math.rint(believedG * 10.0) / 10.0, by);
    }
  }

  /**
   * What became of an order at one of its cups.
   *
   * @param outcome as of the whole
   * @param why a sentence, where there is something to say of this one
   */
  @JsonInclude(JsonInclude.Include.NON_EMPTY)
  public record AtCup(String cup, String outcome, String why) {}

  /** Of an order to one cup, or to the bench. */
  public Receipt(String id, String outcome, String why, List<String> dryBefore) {
    this(id, outcome, why, dryBefore, null, List.of());
  }

  /** Of an order to several cups. */
  public static Receipt ofEach(String id, String outcome, String why, List<AtCup> cups) {
    return new Receipt(id, outcome, why, List.of(), null, cups);
  }

  public static Receipt done(String id) {
    return new Receipt(id, "done", null, List.of());
  }

  public static Receipt taken(String id) {
    return new Receipt(id, "taken", null, List.of());
  }

  public static Receipt refused(String id, String why) {
    return new Receipt(id, "refused", why, List.of());
  }

  /** Done, with something to say of it. */
  public static Receipt done(String id, String why) {
    return new Receipt(id, "done", why, List.of());
  }

  /** A weight learned as a capacity. */
  public static Receipt learned(String id, String why, Capacity capacity) {
    return new Receipt(id, "done", why, List.of(), capacity, List.of());
  }

  /** A weight so far from what was believed that it is learned only if the person is sure. */
  public static Receipt notSure(String id, String why, Capacity capacity) {
    return new Receipt(id, "refused", why, List.of(), capacity, List.of());
  }

  /** The same, naming these as well as dry before a hold ends. */
  public Receipt alsoDry(List<String> more) {
    List<String> all = new ArrayList<>(dryBefore);
    all.addAll(more);
    return new Receipt(id, outcome, why, List.copyOf(all), capacity, cups);
  }
}
