package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonValue;
import java.time.Instant;
import java.util.Locale;

/**
 * A controller's sign of life, said once a minute of real time for as long as its process runs. All
 * but {@code at} is what the loop's own thread noted last, so a loop that hangs or has ended shows:
 * its {@code tick} no longer moves. It is neither journalled nor kept while there is no broker.
 *
 * @param at when it was said
 * @param instance of the process: drawn by chance at its start, so that two controllers of one name
 *     can be told apart
 * @param tick number of the last tick that was finished whole, counted from this start; 0 before
 *     the first. A tick that fails leaves it as it was
 * @param doing what the loop is at
 * @param forS for how long, s of real time
 * @param periodS from one tick to the next as the bench file has it, s of real time
 * @param startsInVain starts that ended without a finished tick, one after the other, just before
 *     this one
 */
public record Beat(
    Instant at,
    String instance,
    long tick,
    Doing doing,
    double forS,
    double periodS,
    int startsInVain) {

  /** What a loop is at. */
  public enum Doing {
    /** It takes up what the journal has kept. */
    STARTING,
    /**
     * After a pass that the last stop cut off, the first tick waits for one soak; until then {@code
     * tick} stays 0 though nothing hangs.
     */
    SETTLING,
    /** Nothing, until the next tick is due. */
    WAITING,
    READING,
    DECIDING,
    /** Into the journal. */
    WRITING,
    WATERING,
    /** It hands over what others are told. */
    TELLING,
    /** Its thread has ended. */
    ENDED;

    /** The name used in messages. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
