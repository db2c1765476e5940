package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;

/**
 * What became of an order.
 *
 * @param id the order's; null where it had none that could be read
 * @param outcome {@code taken}, {@code refused} or {@code done}
 * @param why a sentence, where there is something to say
 * @param dryBefore cups that will be dry before a hold ends
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Receipt(String id, String outcome, String why, List<String> dryBefore) {
  public static Receipt done(String id) {
    return new Receipt(id, "done", null, List.of());
  }

  public static Receipt taken(String id) {
    return new Receipt(id, "taken", null, List.of());
  }

  public static Receipt refused(String id, String why) {
    return new Receipt(id, "refused", why, List.of());
  }
}
