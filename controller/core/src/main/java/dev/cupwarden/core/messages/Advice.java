package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import dev.cupwarden.core.setup.RootStage;
import java.time.Instant;
import java.util.List;
import java.util.SortedMap;

/**
 * What to do and what is so at one moment: one output line of {@code advise}.
 *
 * @param passes what to give now, in the order to give it
 * @param alerts only what was raised or cleared now, or open and told again
 * @param receipts what became of orders
 * @param cups every cup; none with {@code --brief}
 */
public record Advice(
    Instant at,
    List<Pass> passes,
    List<AlertNotice> alerts,
    List<Receipt> receipts,
    @JsonInclude(JsonInclude.Include.NON_NULL) SortedMap<String, CupReport> cups) {

  /**
   * Water to give to one cup.
   *
   * @param strength label strength of the blend
   * @param why {@code due}, {@code forecast}, {@code rescue}, {@code flush} or {@code order}
   */
  public record Pass(String cup, double plainMl, double feedMl, double strength, String why) {}

  /**
   * What one cup is doing: one part for each field of {@code advise-out.schema.json}.
   *
   * @param depletion 0 at container capacity, 1 where the cutting can take no more; null if never
   *     known
   * @param sd standard deviation of the depletion; null if never known
   * @param rateGPerH grams lost an hour; null if never known
   * @param fed label-equivalents given within the last label interval
   * @param rooting on which days roots are likely; absent where nothing can be said
   * @param checks the limits that hold this cup back now, in their order
   */
  public record CupReport(
      CupActivity state,
      Double depletion,
      Double sd,
      @JsonProperty("rate_g_h") Double rateGPerH,
      Instant dueAt,
      Instant dryAt,
      boolean trusted,
      RootStage stage,
      double fed,
      @JsonInclude(JsonInclude.Include.NON_NULL) CupStatus.Rooting rooting,
      List<String> checks) {}
}
