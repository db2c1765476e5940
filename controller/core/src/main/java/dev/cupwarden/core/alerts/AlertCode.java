package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.Catalogue;
import java.time.Duration;
import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Every alert of the contract, in one table: its unit, whether it may be told of many cups as one,
 * whether a person must act on it, how often it is told again, and whether it can be put off. Its
 * sentences stand in the {@link Catalogue} as {@code alert.CODE.do}, for many cups with one cause
 * as {@code alert.CODE.do.together}. All intervals are our choice: a mail missed on one evening is
 * followed by one on the next, and nobody is told by the minute.
 */
public enum AlertCode {
  WET_TOO_LONG("wet-too-long", "h", Told.TOGETHER, Again.DAILY),
  NEAR_DRY("near-dry", "", Told.TOGETHER, Again.DAILY),
  ROT_SUSPECTED("rot-suspected", "", Told.TOGETHER, Again.DAILY),
  SCALE_STUCK("scale-stuck", "min", Told.TOGETHER, Again.DAILY),
  SCALE_NOISY("scale-noisy", "g", Told.TOGETHER, Again.DAILY),
  SCALE_OUT_OF_RANGE("scale-out-of-range", "g", Told.TOGETHER, Again.DAILY),
  SCALE_SILENT("scale-silent", "min", Told.TOGETHER, Again.DAILY),
  SCALE_DRIFTING("scale-drifting", "g/h", Told.SINGLY, Again.DAILY),
  CUP_AWAY("cup-away", "h", Told.TOGETHER, Again.DAILY),
  CUPS_SWAPPED("cups-swapped", "", Told.SINGLY, Again.DAILY),
  DOSE_SHORT("dose-short", "g", Told.SINGLY, Again.DAILY),
  DOSE_OVER("dose-over", "g", Told.SINGLY, Again.NEVER),
  VALVE_LEAKING("valve-leaking", "g", Told.SINGLY, Again.DAILY),
  PUMP_RUNNING_ON("pump-running-on", "g", Told.SINGLY, Again.NOT_PUT_OFF),
  BOARD_FAULT("board-fault", "", Told.SINGLY, Again.DAILY),
  BLIND_RATION("blind-ration", "h", Told.TOGETHER, Again.DAILY),
  SENSOR_DEAD("sensor-dead", "h", Told.SINGLY, Again.DAILY),
  TANK_UNSUITED("tank-unsuited", "", Told.SINGLY, Again.DAILY),
  TRAY_FULL("tray-full", "mL", Told.SINGLY, Again.DAILY),
  TANK_LOW("tank-low", "mL", Told.SINGLY, Again.DAILY),
  TANK_EMPTY("tank-empty", "", Told.SINGLY, Again.DAILY),
  FEED_OLD("feed-old", "d", Told.SINGLY, Again.DAILY),
  LEAK("leak", "mL", Told.SINGLY, Again.HOURLY_WHILE_SEVERE),
  COLD("cold", "°C", Told.SINGLY, Again.DAILY),
  FROST("frost", "°C", Told.SINGLY, Again.NOT_PUT_OFF),
  HEAT("heat", "°C", Told.SINGLY, Again.DAILY),
  SALTS_HIGH("salts-high", "mS/cm", Told.TOGETHER, Again.DAILY),
  LOOK_AT_ROOTS("look-at-roots", "", Told.TOGETHER, Again.NEVER),
  POT_ON("pot-on", "g a day", Told.TOGETHER, Again.NEVER),
  WEIGH_DRAINED("weigh-drained", "d", Told.TOGETHER, Again.DAILY),
  CLOCK("clock", "s", Told.SINGLY, Again.DAILY),
  NOTICES_FAILING("notices-failing", "", Told.SINGLY, Again.DAILY),
  STORE_FULL("store-full", "", Told.SINGLY, Again.DAILY),
  CONTROLLER_SILENT("controller-silent", "min", Told.SINGLY, Again.DAILY),
  INPUT_SET_ASIDE("input-set-aside", "", Told.SINGLY, Again.DAILY),
  TWO_CONTROLLERS("two-controllers", "", Told.SINGLY, Again.DAILY);

  /** A latch is cleared cup by cup, so it is told cup by cup. */
  private enum Told {
    TOGETHER,
    SINGLY
  }

  /** When an alert that stands is told again. */
  private enum Again {
    /** A person must act, and may put it off. */
    DAILY,
    /** It only asks for a look. */
    NEVER,
    NOT_PUT_OFF,
    HOURLY_WHILE_SEVERE
  }

  private static final Duration A_DAY = Duration.ofHours(24);
  private static final Duration AN_HOUR = Duration.ofHours(1);

  private static final Map<String, AlertCode> BY_WORD =
      Arrays.stream(values())
          .collect(Collectors.toUnmodifiableMap(AlertCode::word, Function.identity()));

  private final String word;
  private final String unit;
  private final Told told;
  private final Again again;

  AlertCode(String word, String unit, Told told, Again again) {
    this.word = word;
    this.unit = unit;
    this.told = told;
    this.again = again;
  }

  /**
   * The row of that name.
   *
   * @throws IllegalArgumentException where no alert has it
   */
  public static AlertCode of(String word) {
    AlertCode code = BY_WORD.get(word);
    if (code == null) {
      throw new IllegalArgumentException("no alert is called " + word);
    }
    return code;
  }

  /** The row of that name; empty for what only a host tells of itself. */
  static Optional<AlertCode> find(String word) {
    return Optional.ofNullable(BY_WORD.get(word));
  }

  /** Its name on the wire. */
  public String word() {
    return word;
  }

  /** Of value and threshold; empty where they are parts of one, or say nothing to a person. */
  public String unit() {
    return unit;
  }

  /** What a part of one is a part of, for a person; empty where the value is none. */
  Optional<String> part() {
    String key = "alert." + word + ".part";
    return Catalogue.has(key) ? Optional.of(Catalogue.say(key)) : Optional.empty();
  }

  /** Whether many cups with one cause are told as one. */
  public boolean together() {
    return told == Told.TOGETHER;
  }

  /** Whether a person must act on it: what only asks for a look is told once. */
  public boolean acts() {
    return again != Again.NEVER;
  }

  /** Whether a person may put it off. */
  public boolean puttingOff() {
    return again != Again.NOT_PUT_OFF && again != Again.HOURLY_WHILE_SEVERE;
  }

  /** From one telling to the next at that severity. */
  public Duration every(int severity) {
    return again == Again.HOURLY_WHILE_SEVERE && severity > 0 ? AN_HOUR : A_DAY;
  }

  /** What to do about it, in one sentence. */
  public String whatToDo() {
    return Catalogue.say("alert." + word + ".do");
  }

  /** What to do where many cups have one cause. */
  String whatToDoTogether() {
    String key = "alert." + word + ".do.together";
    return Catalogue.has(key) ? Catalogue.say(key) : whatToDo();
  }
}
