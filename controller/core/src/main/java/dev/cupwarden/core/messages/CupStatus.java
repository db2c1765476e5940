package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import dev.cupwarden.core.setup.RootStage;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * What the wire says of a cup: one part for each field of {@code cup.schema.json}.
 *
 * @param massG gross grams as estimated; null if never known
 * @param capacityG gross grams at container capacity
 * @param availableMl water between capacity and where the cutting can take no more
 * @param dryAt when it likely passes its dry line, by what was learned of it; null if nothing was
 * @param dryBefore when one in ten such cups has passed it: what a hold and the next window are
 *     held against; null if its weight is not known
 * @param waterAt when it is likely watered next: due, moved into open hours and past a hold; null
 *     where nobody knows, and from a controller of before
 * @param wet the wet line, as a depletion; likewise refill, due and dry
 * @param roomMl missing up to the refill line; negative past it, null if not known
 * @param nextPassMl what a person's dose would get in its next pass once no limit holds; 0 where no
 *     pass is worth a valve, null if the water is not known
 * @param leastPassMl smaller passes are not worth a valve; null from a controller of before
 * @param nextFeed null for a stage that takes none, and where no tank holds feed
 * @param rooting on which days roots are likely; null where nothing can be said
 * @param littleAir what it drains to, where that is too little air; null where it is enough, where
 *     nothing runs out of its vessel, and from a controller of before
 * @param reasons all limits that hold it back now, with value and threshold
 */
public record CupStatus(
    Instant at,
    String cup,
    String plant,
    RootStage stage,
    CupActivity state,
    Double massG,
    Double depletion,
    Double sd,
    @JsonProperty("rate_g_h") Double rateGPerH,
    Instant dueAt,
    Instant dryAt,
    Instant dryBefore,
    Instant waterAt,
    boolean trusted,
    double fed,
    double capacityG,
    double availableMl,
    double wet,
    double refill,
    double due,
    double dry,
    Double roomMl,
    Double nextPassMl,
    Double leastPassMl,
    NextFeed nextFeed,
    Rooting rooting,
    LittleAir littleAir,
    List<Told> reasons) {

  /**
   * A mix that in its vessel drains to less air than keeps warm roots safe.
   *
   * @param drained air when drained, as a fraction of volume: by its own weight where that was
   *     learned, else by mix and vessel
   * @param safe from so much on
   */
  public record LittleAir(double drained, double safe, String sentence) {}

  /**
   * Days on which roots are likely, of cuttings that root at all.
   *
   * @param white first roots; null once a person has seen them
   * @param toughened roots that may be fed
   */
  public record Rooting(LikelyDay white, LikelyDay toughened) {}

  /**
   * A day that nobody knows.
   *
   * @param from one in ten is earlier
   * @param likely as many are earlier as later
   * @param to one in ten is later
   */
  public record LikelyDay(LocalDate from, LocalDate likely, LocalDate to) {}

  /**
   * How strong its next feed is to be, in mean over a refill.
   *
   * @param strength as a part of the label's
   * @param cappedBy what keeps it so
   */
  public record NextFeed(
      double strength,
      @JsonProperty("n_mg_per_l") double nMgPerL,
      @JsonProperty("ec_ms_per_cm") double ecMsPerCm,
      Told cappedBy) {}

  /**
   * A reason in numbers and in words.
   *
   * @param detail what of several things it is, such as {@code tank-empty}; absent where the code
   *     says all
   */
  public record Told(
      String code,
      double value,
      double threshold,
      String unit,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) String detail,
      String sentence) {
    public Told {
      detail = detail == null ? "" : detail;
    }

    /** Whose code says all. */
    public Told(String code, double value, double threshold, String unit, String sentence) {
      this(code, value, threshold, unit, "", sentence);
    }
  }
}
