package dev.cupwarden.core.dosing;

import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;

/**
 * A bench and the water that was found where none belongs. A puddle stops the pump at once and
 * wants a person; but a person who does not come must not cost every cutting, so a bench that is
 * dry again and misses no water goes on by rescues under watch.
 *
 * <pre>
 * from         to           after
 * SOUND        WET          wet
 * SOUND        UNREAD       the sensor cannot be read
 * UNREAD       WET          wet
 * UNREAD       SOUND        dry: it was never seen wet
 * WET          DRYING       dry
 * DRYING       WET          wet, or not to be read
 * DRYING       RESCUE       dry for 6 h, and what is missing still goes into the tray
 * DRYING       UNEXPLAINED  dry for 6 h, and more is missing
 * RESCUE       PERSON       wet while a pass runs or within ten minutes after it
 * RESCUE       WET          wet at any other time, or not to be read
 * every        SOUND        a person clears the bench
 * </pre>
 *
 * All figures are our choice.
 *
 * @param since when the stage began; null while sound
 * @param mostMl what all rescues together may take until a person clears the bench
 * @param givenMl what they took so far
 * @param lastAt when the last one was put out; null if none was
 * @param balance what is missing; it is kept while the bench is sound, too
 */
public record LeakWatch(
    Stage stage,
    Instant since,
    double mostMl,
    double givenMl,
    Instant lastAt,
    WaterBalance balance) {
  public static final LeakWatch NONE =
      new LeakWatch(Stage.SOUND, null, Double.POSITIVE_INFINITY, 0.0, null, WaterBalance.NONE);

  /** So long must the sensor stay dry before a rescue. */
  public static final Duration DRY_FOR = Duration.ofHours(6);

  /** Ten minutes after a pass, and two for the pass itself. */
  public static final Duration WATCHED = Duration.ofMinutes(12);

  /** Of the room in the tray. */
  private static final double PART_OF_ROOM = 0.5;

  /** How a bench stands to a leak. */
  public enum Stage {
    SOUND,
    UNREAD,
    WET,
    DRYING,
    RESCUE,
    UNEXPLAINED,
    PERSON
  }

  /** A bench that was wet then, by the word of an older journal. */
  public static LeakWatch wetSince(Instant since) {
    return NONE.to(Stage.WET, since);
  }

  /**
   * After a look at the sensor.
   *
   * @param before when it was looked at before; null if never
   * @param trayMl what the tray holds beside what was reckoned to have run into it
   */
  public LeakWatch look(Instant at, LeakSensor seen, Instant before, double trayMl) {
    return switch (stage) {
      case SOUND, UNREAD ->
          switch (seen) {
            case WET -> to(Stage.WET, at);
            case UNREAD -> stage == Stage.UNREAD ? this : to(Stage.UNREAD, at);
            case DRY -> stage == Stage.SOUND ? faded(before, at) : to(Stage.SOUND, null);
          };
      case WET -> seen == LeakSensor.DRY ? to(Stage.DRYING, at) : this;
      case DRYING ->
          seen != LeakSensor.DRY
              ? to(Stage.WET, at)
              : Duration.between(since, at).compareTo(DRY_FOR) < 0 ? this : dry(at, trayMl);
      case RESCUE ->
          seen == LeakSensor.DRY
              ? this
              : to(seen == LeakSensor.WET && underRescue(before) ? Stage.PERSON : Stage.WET, at);
      case UNEXPLAINED, PERSON -> this;
    };
  }

  private LeakWatch faded(Instant before, Instant at) {
    return before == null ? this : with(balance.dry(Elapsed.hours(before, at)));
  }

  private LeakWatch dry(Instant at, double trayMl) {
    double roomMl = trayMl - balance.unexplainedMl();
    if (roomMl <= 0.0) {
      return to(Stage.UNEXPLAINED, at);
    }
    double allMl = Math.min(mostMl, givenMl + PART_OF_ROOM * roomMl);
    return new LeakWatch(Stage.RESCUE, at, allMl, givenMl, lastAt, balance);
  }

  /** What was wet since the look before may have been wet within the watch after a pass. */
  private boolean underRescue(Instant before) {
    return lastAt != null && before != null && !before.isAfter(lastAt.plus(WATCHED));
  }

  /** Whether nothing may be pumped to any cup, whatever it wants. */
  public boolean off() {
    return stage != Stage.SOUND && stage != Stage.RESCUE;
  }

  /** Whether cups past their dry line may get water, and no others. */
  public boolean onRescue() {
    return stage == Stage.RESCUE;
  }

  /** What rescues may still take, mL; 0 while the sensor is watched after the last. */
  public double roomMl(Instant at) {
    return watching(at) ? 0.0 : leftMl();
  }

  /** What rescues may still take, mL, once the sensor was watched. */
  public double leftMl() {
    return Math.max(0.0, mostMl - givenMl);
  }

  /** Whether the sensor is still watched after the last rescue. */
  public boolean watching(Instant at) {
    return lastAt != null && Duration.between(lastAt, at).compareTo(WATCHED) < 0;
  }

  /** After a pass was put out; nothing where the bench is not on rescue. */
  public LeakWatch gave(Instant at, double ml) {
    return onRescue() ? new LeakWatch(stage, since, mostMl, givenMl + ml, at, balance) : this;
  }

  /** The same with another balance. */
  public LeakWatch with(WaterBalance other) {
    return other.equals(balance)
        ? this
        : new LeakWatch(stage, since, mostMl, givenMl, lastAt, other);
  }

  private LeakWatch to(Stage next, Instant at) {
    return new LeakWatch(next, at, mostMl, givenMl, lastAt, balance);
  }
}
