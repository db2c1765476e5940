package dev.cupwarden.core.alerts;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.Catalogue;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Every alert of the contract, in one table: its unit, whether it may be told of many cups as one,
 * whether a person must act on it, how often it is told again, and whether it can be put off. Its
 * sentences stand in the {@link Catalogue} as {@code alert.CODE.name} and {@code alert.CODE.do},
 * for many cups with one cause as {@code alert.CODE.do.together}. All intervals are our choice: a
 * mail missed on one evening is followed by one on the next, and nobody is told by the minute.
 */
public enum AlertCode {
  WET_TOO_LONG("wet-too-long", "h", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  STAYING_WET("staying-wet", "h", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  ROT_WEATHER("rot-weather", "h", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  MOULD_WEATHER("mould-weather", "h", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  LIFT_COVER("lift-cover", "", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  NEAR_DRY("near-dry", "", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  SCALE_STUCK("scale-stuck", "min", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  SCALE_NOISY("scale-noisy", "g", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  SCALE_OUT_OF_RANGE("scale-out-of-range", "g", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  SCALE_SILENT("scale-silent", "min", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  SCALE_DRIFTING("scale-drifting", "g/h", Told.SINGLY, Again.DAILY, Ends.BY_CLEAR),
  CUP_AWAY("cup-away", "h", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  CUPS_SWAPPED("cups-swapped", "", Told.SINGLY, Again.DAILY, Ends.BY_CLEAR),
  DOSE_SHORT("dose-short", "g", Told.SINGLY, Again.DAILY, Ends.BY_CLEAR),
  SHEDS_WATER("sheds-water", "", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  DOSE_OVER("dose-over", "g", Told.SINGLY, Again.NEVER, Ends.BY_ITSELF),
  VALVE_LEAKING("valve-leaking", "g", Told.SINGLY, Again.DAILY, Ends.BY_CLEAR),
  PUMP_RUNNING_ON("pump-running-on", "g", Told.SINGLY, Again.NOT_PUT_OFF, Ends.BY_CLEAR),
  BOARD_FAULT("board-fault", "", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  BLIND_RATION("blind-ration", "h", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  SENSOR_DEAD("sensor-dead", "h", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  TANK_UNSUITED("tank-unsuited", "", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  FEED_CHANGE("feed-change", "d", Told.SINGLY, Again.NEVER, Ends.BY_ITSELF),
  TRAY_FULL("tray-full", "mL", Told.SINGLY, Again.DAILY, Ends.BY_CLEAR),
  TANK_LOW("tank-low", "mL", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  TANK_EMPTY("tank-empty", "", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  FEED_OLD("feed-old", "d", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  LEAK("leak", "mL", Told.SINGLY, Again.HOURLY_WHILE_SEVERE, Ends.BY_CLEAR),
  COLD("cold", "°C", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  FROST("frost", "°C", Told.SINGLY, Again.NOT_PUT_OFF, Ends.BY_ITSELF),
  HEAT("heat", "°C", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  SALTS_HIGH("salts-high", "mS/cm", Told.TOGETHER, Again.DAILY, Ends.BY_ITSELF),
  LOOK_AT_ROOTS("look-at-roots", "", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  POT_ON("pot-on", "g a day", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  POT_BOUND("pot-bound", "d", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  SHADE_LEAVES("shade-leaves", "", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  LEAF_DROP("leaf-drop", "", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  TOP_WET("top-wet", "d", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  STOP_HEAT("stop-heat", "°C", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  KEEP_IN("keep-in", "", Told.SINGLY, Again.NEVER, Ends.BY_ITSELF),
  HARDEN_OFF("harden-off", "d", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  LITTLE_LIGHT("little-light", "mol/m² a day", Told.TOGETHER, Again.NEVER, Ends.BY_ITSELF),
  WEIGH_DRAINED(
      "weigh-drained", "d", Told.TOGETHER_WHILE_MILD, Again.WEEKLY_WHILE_MILD, Ends.BY_ITSELF),
  PUMP_DRIFT("pump-drift", "", Told.SINGLY, Again.WEEKLY_WHILE_MILD, Ends.BY_ITSELF),
  WATCH_ONLY("watch-only", "", Told.SINGLY, Again.WEEKLY_WHILE_MILD, Ends.BY_ITSELF),
  CLOCK("clock", "s", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  NOTICES_FAILING("notices-failing", "", Told.SINGLY, Again.NOT_PUT_OFF, Ends.BY_ITSELF),
  STORE_FULL("store-full", "", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  CONTROLLER_SILENT("controller-silent", "min", Told.SINGLY, Again.NOT_PUT_OFF, Ends.BY_ITSELF),
  INPUT_SET_ASIDE("input-set-aside", "", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF),
  TWO_CONTROLLERS("two-controllers", "", Told.SINGLY, Again.DAILY, Ends.BY_ITSELF);

  /** A latch is cleared cup by cup, so it is told cup by cup. */
  private enum Told {
    TOGETHER,
    /** One that is severe has words of its own. */
    TOGETHER_WHILE_MILD,
    SINGLY
  }

  /** What ends it. */
  private enum Ends {
    BY_ITSELF,
    /** A person's order, once they have looked. */
    BY_CLEAR
  }

  /** When an alert that stands is told again. */
  private enum Again {
    /** A person must act, and may put it off. */
    DAILY,
    /** It can wait for a week, unless it is severe. */
    WEEKLY_WHILE_MILD,
    /** It only asks for a look. */
    NEVER,
    /** A person must act, and cannot put it off: it cannot wait, or the host tells of itself. */
    NOT_PUT_OFF,
    HOURLY_WHILE_SEVERE
  }

  private static final Duration A_WEEK = Duration.ofDays(7);
  private static final Duration A_DAY = Duration.ofHours(24);
  private static final Duration AN_HOUR = Duration.ofHours(1);

  private static final Map<String, AlertCode> BY_WORD =
      Arrays.stream(values())
          .collect(Collectors.toUnmodifiableMap(AlertCode::word, Function.identity()));

  private final String word;
  private final String unit;
  private final Told told;
  private final Again again;
  private final Ends ends;

  AlertCode(String word, String unit, Told told, Again again, Ends ends) {
    this.word = word;
    this.unit = unit;
    this.told = told;
    this.again = again;
    this.ends = ends;
  }

  /**
   * The row of that name.
   *
   * @throws IllegalArgumentException where no alert has it
   */
  @JsonCreator
  public static AlertCode of(String word) {
    AlertCode code = BY_WORD.get(word);
    if (code == null) {
      throw new IllegalArgumentException("no alert is called " + word);
    }
    return code;
  }

  /** The gravest, which come first where several are shown: water, then people, then plants. */
  private static final List<AlertCode> GRAVEST =
      List.of(
          LEAK,
          PUMP_RUNNING_ON,
          VALVE_LEAKING,
          BOARD_FAULT,
          CONTROLLER_SILENT,
          TWO_CONTROLLERS,
          TANK_EMPTY,
          NOTICES_FAILING,
          FROST,
          DOSE_SHORT,
          NEAR_DRY,
          WET_TOO_LONG);

  /** The row of that name; empty for what only a host tells of itself. */
  static Optional<AlertCode> find(String word) {
    return Optional.ofNullable(BY_WORD.get(word));
  }

  /** Its name on the wire and in a journal. */
  @JsonValue
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

  /**
   * Its place among alerts that stand: 0 is the gravest; those that have no own place share one.
   */
  public int rank() {
    int place = GRAVEST.indexOf(this);
    return place < 0 ? GRAVEST.size() : place;
  }

  /** Its name for a person. */
  public String called() {
    return Catalogue.say("alert." + word + ".name");
  }

  /** As the set-up tells it. */
  public BenchSetup.Alert told() {
    return new BenchSetup.Alert(
        word,
        called(),
        unit,
        part().orElse(""),
        countsCups(),
        rank(),
        acts(),
        puttingOff(),
        ends == Ends.BY_CLEAR);
  }

  /** Whether its value counts cups where it is told of the whole bench. */
  boolean countsCups() {
    return together() || this == DOSE_SHORT;
  }

  /** Whether many cups with one cause are told as one. */
  public boolean together() {
    return told != Told.SINGLY;
  }

  /** Whether it is, at that severity. */
  boolean together(int severity) {
    return told == Told.TOGETHER || (told == Told.TOGETHER_WHILE_MILD && severity == 0);
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
    boolean severe = severity > 0;
    return switch (again) {
      case HOURLY_WHILE_SEVERE -> severe ? AN_HOUR : A_DAY;
      case WEEKLY_WHILE_MILD -> severe ? A_DAY : A_WEEK;
      case DAILY, NEVER, NOT_PUT_OFF -> A_DAY;
    };
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
