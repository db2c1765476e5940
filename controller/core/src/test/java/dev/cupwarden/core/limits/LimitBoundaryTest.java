package dev.cupwarden.core.limits;

import static dev.cupwarden.core.limits.CaseDraft.AT;
import static dev.cupwarden.core.limits.CaseDraft.ago;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicContainer.dynamicContainer;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch.Stage;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.estimate.Distrust;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.CupLines;
import dev.cupwarden.core.watering.WetClock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Each clause of the table of limits just on this side, on and just beyond its bound, with its
 * reason in full; which causes go through it; whether a person may lift it. A clause without
 * figures here fails. Bounds are those of the rows' own Javadoc: common practice or our choice.
 */
class LimitBoundaryTest {
  private static final String ASTRAY = "valve-leaking";
  private static final Cause[] RESCUES = {Cause.RESCUE, Cause.FED_RESCUE};
  private static final Cause[] NO_RESCUES = {
    Cause.DUE, Cause.FORECAST, Cause.BLIND, Cause.FLUSH, Cause.ORDER
  };
  private static final Map<String, Boundary> BY_ROW =
      Stream.of(hardware(), holds(), weight(), wetness(), air(), passes(), feed())
          .flatMap(List::stream)
          .collect(Collectors.toMap(one -> one.row, Function.identity()));

  /** A clause of the table, with its row. */
  private record Asked(LimitCode code, Clause clause) {
    String name() {
      String limit =
          clause.limit().getClass().isRecord()
              ? clause.limit().toString()
              : clause.limit().getClass().getSimpleName();
      return code.word() + " " + limit;
    }
  }

  private static List<Asked> table() {
    return Arrays.stream(LimitCode.values())
        .flatMap(code -> code.clauses().stream().map(clause -> new Asked(code, clause)))
        .toList();
  }

  @Test
  void everyClauseHasItsFiguresAndNoFiguresAreOfNoClause() {
    Set<String> clauses =
        table().stream().map(Asked::name).collect(Collectors.toCollection(TreeSet::new));
    assertEquals(table().size(), clauses.size(), "two clauses of one name");
    assertEquals(clauses, new TreeSet<>(BY_ROW.keySet()));
  }

  @Test
  void windowOpensSoManyMinutesFromNow() {
    Case.WindowNow shut = new Case.WindowNow(false, false, 90.5);
    assertEquals(AT.plusSeconds(90 * 60 + 30), shut.opening(AT));
  }

  @Test
  void usualPassIsHeldByNothing() {
    Limits.Allowance allowed = Limits.judge(new CaseDraft().made());
    assertEquals(List.of(), allowed.holding());
    assertEquals(List.of(), allowed.feedHolding());
    assertEquals(30.0, allowed.ml());
  }

  @TestFactory
  Stream<DynamicNode> rows() {
    return table().stream()
        .map(
            asked -> {
              Boundary boundary = BY_ROW.get(asked.name());
              assertNotNull(boundary, () -> asked.name() + " has no figures in this test");
              List<DynamicNode> tests = new ArrayList<>();
              for (Boundary.Point point : boundary.points) {
                tests.add(dynamicTest(point.name(), () -> around(asked, point)));
              }
              tests.add(dynamicTest("what passes it", () -> passing(asked, boundary)));
              return dynamicContainer(asked.name(), tests);
            });
  }

  private static void around(Asked asked, Boundary.Point point) {
    CaseDraft draft = new CaseDraft();
    point.change().accept(draft);
    Ruling ruling = asked.clause().limit().rule(draft.made());
    assertEquals(point.atMost(), ruling.atMost(), 1e-9);
    if (asked.clause().effect() == LimitCode.Effect.VETO) {
      assertTrue(ruling.free() || ruling.atMost() == 0.0, "a veto leaves all or nothing");
    }
    Reason expected = point.reason();
    if (expected == null) {
      assertTrue(ruling.free());
      return;
    }
    Reason reason = asked.code().reason(ruling);
    assertEquals(expected.code(), reason.code());
    assertEquals(expected.value(), reason.value(), 1e-9);
    assertEquals(expected.threshold(), reason.threshold(), 1e-9);
    assertEquals(expected.unit(), reason.unit());
    assertEquals(expected.detail(), reason.detail());
  }

  /** By every pass that its points hold back: for each cause, and with a person's word. */
  private static void passing(Asked asked, Boundary boundary) {
    assertEquals(boundary.passedBy, asked.clause().passedBy());
    assertEquals(boundary.liftable, asked.code().dose() == LimitCode.Dose.LIFTS);
    boolean feed = asked.code().on() == LimitCode.On.FEED;
    List<Boundary.Point> holding =
        boundary.points.stream()
            .filter(point -> point.atMost() < (feed ? 1e-9 : Limits.LEAST_PASS_ML))
            .toList();
    assertTrue(
        boundary.neverHolds == holding.isEmpty() && holding.size() < boundary.points.size(),
        "one on each side");
    for (Boundary.Point point : holding) {
      for (Cause cause : Cause.values()) {
        CaseDraft draft = new CaseDraft();
        draft.cause = cause;
        point.change().accept(draft);
        if (draft.cause != cause) {
          continue;
        }
        boolean through = boundary.passedBy.contains(cause) && !boundary.alsoBy.contains(cause);
        assertEquals(!through, holds(draft, point, feed), point.name() + ", " + cause);
        draft.lifts = Set.of(asked.code().word());
        assertEquals(
            !through && !boundary.liftable, holds(draft, point, feed), point.name() + ", lifted");
      }
    }
  }

  private static boolean holds(CaseDraft draft, Boundary.Point point, boolean feed) {
    Case made = draft.made();
    Limits.Allowance allowed = Limits.judge(made);
    assertEquals(!allowed.water(), Limits.forbids(made), "both ask the same table");
    return (feed ? allowed.feedHolding() : allowed.holding())
        .stream().anyMatch(one -> one.code().equals(point.reason().code()));
  }

  private static List<Boundary> hardware() {
    Boundary hardware =
        new Boundary("hardware HardwareLimit")
            .passedByNone()
            .free("5 mL of plain water", d -> d.supply = plain(5.0))
            .held("4.9 mL of it", d -> d.supply = plain(4.9), 0.0, 5.0, "mL", "tank-empty")
            .free("5 mL of feed alone", d -> d.supply = feed(5.0, 0.5))
            .held("4.9 mL of it", d -> d.supply = feed(4.9, 0.5), 4.9, 5.0, "mL", "tank-empty")
            .held("too strong", d -> d.supply = feed(900, 0.51), 0.0, 5.0, "mL", "tank-empty")
            .held("no valve", d -> d.reached = false, 1.0, 0.0, "", "no-valve")
            .held("a pump's latch", d -> d.pumpLatch = latch(), 2.0, 3.0, "", "dose-short")
            .held("a cup's latch", d -> d.cupLatch = latch(), 2.0, 3.0, "", "dose-short")
            .free(
                "a latch on trial",
                d -> {
                  d.pumpLatch = latch();
                  d.trial = true;
                })
            .free(
                "water astray, on trial",
                d -> {
                  d.pumpLatch = astray("PT0S");
                  d.trial = true;
                })
            .held(
                "a pump that runs on, on trial",
                d -> {
                  d.pumpLatch = new Latch(AlertCode.PUMP_RUNNING_ON, AT, 2.0, 3.0);
                  d.trial = true;
                },
                2.0,
                3.0,
                "",
                "pump-running-on")
            .free(
                "a cup's short doses, on trial",
                d -> {
                  d.cupLatch = latch();
                  d.trial = true;
                })
            .held(
                "a cup's leak, on trial",
                d -> {
                  d.cupLatch = astray("PT1H");
                  d.trial = true;
                },
                2.0,
                3.0,
                "",
                ASTRAY)
            .held("a leak not a day old", d -> d.cupLatch = astray("PT23H59M"), 2, 3, "", ASTRAY)
            .held("an output is silent", d -> d.boardFault = true, 1.0, 0.0, "", "board-fault")
            .held("wet", d -> leak(d, Stage.WET), 1.0, 0.0, "", "leak")
            .held("unread", d -> leak(d, Stage.UNREAD), 1.0, 0.0, "", "leak-unread")
            .held("dry for 2 h", d -> leak(d, Stage.DRYING), 2.0, 6.0, "h", "leak-drying")
            .held("unexplained", d -> leak(d, Stage.UNEXPLAINED), 0, 0, "mL", "leak-unexplained")
            .held("again", d -> leak(d, Stage.PERSON), 1.0, 0.0, "", "leak-again")
            .free("rescue after a leak", d -> leak(d, Stage.RESCUE));
    Boundary after =
        new Boundary("hardware AfterLeakLimit")
            .passedByNone()
            .passedBy(RESCUES)
            .free("no leak", d -> {})
            .held("after one", d -> afterLeak(d, 20, null), 20.0, 25.0, "mL", "leak-rescue");
    Boundary valve =
        new Boundary("hardware LeakyValveLimit")
            .passedBy(RESCUES)
            .free("no latch", d -> {})
            .held("a leak a day old", d -> d.cupLatch = astray("PT24H"), 2.0, 3.0, "", ASTRAY);
    Boundary room =
        new Boundary("hardware LeakRoomLimit")
            .alsoBy(Cause.PRIME, Cause.RINSE)
            .free("no leak", d -> {})
            .capped("5 mL left", d -> afterLeak(d, 20, null), 5.0, 20.0, 25.0, "mL", "leak-room")
            .capped(
                "4.9 mL left", d -> afterLeak(d, 20.1, null), 4.9, 20.1, 25.0, "mL", "leak-room")
            .held("watched", d -> afterLeak(d, 9, "PT11M"), 11.0, 12.0, "min", "leak-watch")
            .capped("12 min", d -> afterLeak(d, 9, "PT12M"), 16.0, 9.0, 25.0, "mL", "leak-room");
    return List.of(hardware, after, valve, room);
  }

  private static Supply plain(double ml) {
    return new Supply("plain", ml, null, null, 0.0, 0.0);
  }

  private static Supply feed(double ml, double strength) {
    return new Supply(null, 0.0, "feed", "leafy", ml, strength);
  }

  private static Latch latch() {
    return new Latch(AlertCode.DOSE_SHORT, AT, 2.0, 3.0);
  }

  private static Latch astray(String age) {
    return new Latch(AlertCode.VALVE_LEAKING, AT.minus(Duration.parse(age)), 2.0, 3.0);
  }

  private static void leak(CaseDraft draft, Stage stage) {
    draft.leak(stage, "PT2H", 1_000.0, 0.0, null);
  }

  private static void afterLeak(CaseDraft draft, double givenMl, String lastPass) {
    draft.leak(Stage.RESCUE, "PT2H", 25.0, givenMl, lastPass);
  }

  private static Hold hold(String until, boolean feedOnly, boolean rescue) {
    return new Hold(AT.plus(Duration.parse(until)), feedOnly, rescue);
  }

  private static List<Boundary> holds() {
    Boundary water =
        new Boundary("hold HoldLimit[feedOnly=false, withoutRescues=false]")
            .passedBy(RESCUES)
            .alsoBy(RESCUES)
            .free("over now", d -> d.cupHold = hold("PT0S", false, false))
            .held("a second more", d -> d.cupHold = hold("PT1S", false, false), 1 / 3600.0, 0, "h")
            .held("of the bench", d -> d.benchHold = hold("PT2H", false, false), 2.0, 0.0, "h")
            .free("of feed", d -> d.cupHold = hold("PT2H", true, false))
            .held(
                "a due pass, by one that lets rescues through",
                d -> {
                  d.cupHold = hold("PT2H", false, true);
                  d.cause = Cause.DUE;
                },
                2.0,
                0.0,
                "h");
    Boundary rescue =
        new Boundary("hold HoldLimit[feedOnly=false, withoutRescues=true]")
            .onlyFor(RESCUES)
            .alsoBy(NO_RESCUES)
            .free("that lets rescues through", d -> d.cupHold = hold("PT2H", false, true))
            .held("that does not", d -> d.cupHold = hold("PT2H", false, false), 2.0, 0.0, "h");
    Boundary feed =
        new Boundary("hold-feed HoldLimit[feedOnly=true, withoutRescues=false]")
            .passedBy(RESCUES)
            .alsoBy(RESCUES)
            .free("over now", d -> d.cupHold = hold("PT0S", true, false))
            .held("a second more", d -> d.cupHold = hold("PT1S", true, false), 1 / 3600.0, 0, "h")
            .held("of the bench", d -> d.benchHold = hold("PT2H", true, false), 2.0, 0.0, "h")
            .free("of water", d -> d.cupHold = hold("PT2H", false, false));
    Boundary feedForRescues =
        new Boundary("hold-feed HoldLimit[feedOnly=true, withoutRescues=true]")
            .onlyFor(RESCUES)
            .alsoBy(NO_RESCUES)
            .free("that lets rescues through", d -> d.cupHold = hold("PT2H", true, true))
            .held("that does not", d -> d.cupHold = hold("PT2H", true, false), 2.0, 0.0, "h");
    Boundary clock =
        new Boundary("clock ClockLimit")
            .passedBy(RESCUES)
            .free("trusted", d -> {})
            .held("in doubt", d -> d.clockInDoubt = true, 1.0, 0.0, "");
    return List.of(water, rescue, feed, feedForRescues, clock);
  }

  private static List<Boundary> weight() {
    Boundary away =
        new Boundary("away AwayLimit")
            .held("away", d -> d.away = true, 1.0, 0.0, "")
            .held("back for 9 min", d -> d.backAt = ago("PT9M"), 9.0, 10.0, "min", "back")
            .free("back for 10 min", d -> d.backAt = ago("PT10M"))
            .held("covered for 9 min", d -> d.coverAt = ago("PT9M"), 9.0, 10.0, "min", "cover")
            .free("covered for 10 min", d -> d.coverAt = ago("PT10M"));
    Boundary untrusted =
        new Boundary("untrusted UntrustedLimit")
            .passedBy(Cause.BLIND)
            .free("trusted", d -> {})
            .held(
                "silent",
                d -> d.distrust = new Distrust(DistrustCode.SCALE_SILENT, 31.0, 30.0),
                31.0,
                30.0,
                "min",
                "scale-silent");
    return List.of(away, untrusted);
  }

  private static List<Boundary> wetness() {
    Boundary tooWet =
        new Boundary("too-wet TooWetLimit")
            .passedBy(Cause.FLUSH)
            .free("unknown", d -> d.roomToWetMl = Double.NaN)
            .capped("5 mL", d -> d.roomToWetMl = 5.0, 5.0, 0.5, -0.25, "depletion", "")
            .capped("4.9 mL", d -> d.roomToWetMl = 4.9, 4.9, 0.5, -0.25, "depletion", "")
            .held("past it", d -> d.roomToWetMl = -3.0, 0.5, -0.25, "depletion");
    Boundary wet =
        new Boundary("wet-too-long WetTooLongLimit")
            .passedBy(Cause.FLUSH)
            .free("for 47 h 59 min", d -> d.wet = wetFor("PT47H59M"))
            .held("for 48 h", d -> d.wet = wetFor("PT48H"), 48.0, 48.0, "h")
            .free("47.9 h beyond need", d -> d.wet = littleAirFor("PT100H", 52.1))
            .held("48 h beyond need", d -> d.wet = littleAirFor("PT100H", 52.0), 48.0, 48.0, "h");
    // A third of the way from refill at 0 to due at 0.75.
    Boundary dryBack =
        new Boundary("no-dry-back NoDryBackLimit")
            .passedBy(Cause.RESCUE, Cause.FED_RESCUE, Cause.BLIND, Cause.FLUSH)
            .liftable()
            .free("by a third", d -> driedTo(d, 0.0, 0.25))
            .held("less", d -> driedTo(d, 0.0, 0.24), 0.24, 0.25, "depletion")
            .held("from past due", d -> driedTo(d, 0.2, 0.24), 0.24, 0.25, "depletion")
            .held(
                "from refill at 0.25",
                d -> {
                  d.lines = new CupLines(-0.25, 0.25, 0.75, 0.875);
                  driedTo(d, 0.25, 0.41);
                },
                0.16,
                0.5 / 3.0,
                "depletion")
            .free("from below refill", d -> driedTo(d, -0.1, 0.15))
            .free(
                "in a refill",
                d -> {
                  driedTo(d, 0.0, 0.1);
                  d.refilling = true;
                })
            .free("before the first", d -> driedTo(d, Double.NaN, 0.1));
    return List.of(tooWet, wet, dryBack);
  }

  private static WetClock wetFor(String time) {
    return new WetClock(ago(time), null, 0.0, 0.0);
  }

  private static WetClock littleAirFor(String time, double needH) {
    return new WetClock(null, ago(time), needH, 0.0);
  }

  private static void driedTo(CaseDraft draft, double from, double depletion) {
    draft.driedFrom = from;
    draft.depletion = depletion;
  }

  private static List<Boundary> air() {
    Boundary frost =
        new Boundary("frost FrostLimit")
            .free("roots at 3 °C", d -> d.rootC = 3.0)
            .held("roots at 2.9 °C", d -> d.rootC = 2.9, 2.9, 3.0, "C")
            .free("air at 2.9 °C over warm roots", d -> d.airC = 2.9)
            .free("air at 0.6 °C over warm roots", d -> d.airC = 0.6)
            .held("air at 0.5 °C", d -> d.airC = 0.5, 0.5, 0.5, "C", "ice")
            .held("roots alone", d -> temperatures(d, Double.NaN, 2.9), 2.9, 3.0, "C")
            .free("unknown", d -> temperatures(d, Double.NaN, Double.NaN));
    Boundary cold =
        new Boundary("cold ColdLimit")
            .passedBy(RESCUES)
            .liftable()
            .free("roots at 12 °C", d -> d.rootC = 12.0)
            .held("at 11.9 °C", d -> d.rootC = 11.9, 11.9, 12.0, "C")
            .free("unknown", d -> d.rootC = Double.NaN);
    Boundary window =
        new Boundary("window WindowLimit")
            .passedBy(Cause.RESCUE, Cause.FED_RESCUE, Cause.FLUSH)
            .liftable()
            .free("open", d -> d.window = new Case.WindowNow(true, false, 90.0))
            .held("shut", d -> d.window = new Case.WindowNow(false, true, 90.0), 90.0, 0.0, "min")
            .free("back for less than 12 h", d -> shutButBack(d, "PT11H59M"))
            .held("back for 12 h", d -> shutButBack(d, "PT12H"), 90.0, 0.0, "min");
    return List.of(frost, cold, window);
  }

  private static void temperatures(CaseDraft draft, double airC, double rootC) {
    draft.airC = airC;
    draft.rootC = rootC;
  }

  private static void shutButBack(CaseDraft draft, String back) {
    draft.window = new Case.WindowNow(false, true, 90.0);
    draft.backAt = ago(back);
  }

  private static List<Boundary> passes() {
    // 1.2 x 50 mL of room at the first pass of the day.
    Boundary day =
        new Boundary("day-volume DayVolumeLimit[orHalf=false]")
            .passedBy(Cause.RESCUE, Cause.ORDER, Cause.BLIND, Cause.FLUSH)
            .alsoBy(Cause.RESCUE, Cause.ORDER)
            .free("a day ago", d -> d.given("PT24H", 60.0, 0.0, 50.0))
            .capped("5 mL left", d -> dayOf(d, 55.0), 5.0, 55.0, 60.0, "mL", "")
            .capped("4.9 mL left", d -> dayOf(d, 55.1), 4.9, 55.1, 60.0, "mL", "");
    Boundary half =
        new Boundary("day-volume DayVolumeLimit[orHalf=true]")
            .onlyFor(Cause.RESCUE, Cause.ORDER)
            .alsoBy(Cause.DUE, Cause.FORECAST, Cause.FED_RESCUE)
            .free("a day ago", d -> d.given("PT24H", 60.0, 0.0, 50.0))
            .capped("half of the room", d -> dayDone(d, 10.0), 5.0, 0.0, 5.0, "mL", "half-room")
            .capped("4.9 mL of it", d -> dayDone(d, 9.8), 4.9, 0.0, 4.9, "mL", "half-room");
    Boundary hose =
        new Boundary("hose HoseLimit")
            .passedBy(RESCUES)
            .free("5 mg/L", d -> d.hose = new Case.HoseFacts(5.0, 5.0, false, 0.0))
            .held("5.1", d -> d.hose = new Case.HoseFacts(5.1, 5.0, false, 0.0), 5.1, 5, "mg/L N")
            .held("waits", d -> hoseWaits(d, 119.9), 119.9, 120.0, "min", "waits")
            .free("waited for 2 h", d -> hoseWaits(d, 120.0));
    Boundary pass =
        new Boundary("pass PassLimit[part=1.0]")
            .passedBy(Cause.FED_RESCUE, Cause.FLUSH)
            .neverHolds()
            .capped("the bench's", d -> d.capacityMl = 300, 30.0, 30.0, 30.0, "mL", "")
            .capped("a tenth of the cup", d -> d.capacityMl = 299, 29.9, 30.0, 29.9, "mL", "")
            .capped("halved", d -> d.soaking = new Soaking(0.5, 0), 15.0, 30.0, 15.0, "mL", "")
            .capped("a small cup's", d -> d.capacityMl = 20, 5.0, 30.0, 5.0, "mL", "");
    Boundary fed =
        new Boundary("pass PassLimit[part=0.5]")
            .onlyFor(Cause.FED_RESCUE)
            .neverHolds()
            .capped("half of it", d -> {}, 15.0, 30.0, 15.0, "mL", "")
            .capped("a small cup's", d -> d.capacityMl = 99, 5.0, 30.0, 5.0, "mL", "");
    Boundary line =
        new Boundary("pass RefillLineLimit")
            .onlyFor(Cause.DUE, Cause.FORECAST, Cause.RESCUE, Cause.FED_RESCUE, Cause.ORDER)
            .capped("5 mL of room", d -> d.roomMl = 5.0, 5.0, 30.0, 5.0, "mL", "refill-line")
            .capped("4.9 mL", d -> d.roomMl = 4.9, 4.9, 30.0, 4.9, "mL", "refill-line");
    // The bench's pass is 30 mL.
    Boundary tick =
        new Boundary("tick-volume TickVolumeLimit")
            .free("the first of a slow pump", d -> d.round = new Case.Round(0.0, 20.0))
            .free("room for one more", d -> d.round = new Case.Round(270.0, 300.0))
            .held("for less", d -> d.round = new Case.Round(270.1, 300.0), 270.1, 300.0, "mL");
    Boundary refill =
        new Boundary("half-refill BudgetLimit")
            .onlyFor(Cause.DUE, Cause.FORECAST, Cause.RESCUE, Cause.FED_RESCUE)
            .free("a whole one", d -> d.wantMl = Double.POSITIVE_INFINITY)
            .capped("5 mL left", d -> d.wantMl = 5.0, 5.0, 5.0, 5.0, "mL", "")
            .capped("4.9 mL left", d -> d.wantMl = 4.9, 4.9, 4.9, 5.0, "mL", "");
    Boundary ration =
        new Boundary("ration BudgetLimit")
            .onlyFor(Cause.BLIND)
            .free("without bound", d -> d.wantMl = Double.POSITIVE_INFINITY)
            .capped("5 mL left", d -> d.wantMl = 5.0, 5.0, 5.0, 5.0, "mL", "")
            .capped("4.9 mL left", d -> d.wantMl = 4.9, 4.9, 4.9, 5.0, "mL", "");
    Boundary flush =
        new Boundary("pass FlushPassLimit")
            .onlyFor(Cause.FLUSH)
            .neverHolds()
            .capped("of a small cup", d -> d.capacityMl = 99, 30.0, 30.0, 30.0, "mL", "");
    Boundary flushSoak =
        new Boundary("soak FlushSoakLimit")
            .onlyFor(Cause.FLUSH)
            .alsoBy(RESCUES)
            .alsoBy(Cause.DUE, Cause.FORECAST, Cause.BLIND, Cause.ORDER)
            .free("before the first", d -> d.lastPassAt = null)
            .held("4 min", d -> d.lastPassAt = ago("PT4M"), 4.0, 5.0, "min")
            .free("5 min", d -> d.lastPassAt = ago("PT5M"))
            .free("5 min, halved", d -> soaks(d, "PT5M"));
    Boundary soak =
        new Boundary("soak SoakLimit")
            .passedBy(Cause.FLUSH)
            .free("before the first", d -> d.lastPassAt = null)
            .held("11 min", d -> d.lastPassAt = ago("PT11M"), 11.0, 12.0, "min")
            .free("12 min", d -> d.lastPassAt = ago("PT12M"))
            .held("23 min, halved", d -> soaks(d, "PT23M"), 23.0, 24.0, "min")
            .free("24 min, halved", d -> soaks(d, "PT24M"))
            .free(
                "kept by a person",
                d -> {
                  d.lastPassAt = AT;
                  d.between = true;
                });
    Boundary sheds =
        new Boundary("sheds-water ShedsWaterLimit")
            .passedBy(Cause.RESCUE, Cause.FED_RESCUE, Cause.BLIND)
            .free("two passes ran past the mix", d -> d.soaking = new Soaking(0.25, 2))
            .held("three did", d -> d.soaking = new Soaking(0.25, 3), 3.0, 3.0, "");
    return List.of(
        day, half, hose, sheds, pass, fed, flush, line, tick, refill, ration, soak, flushSoak);
  }

  private static void dayOf(CaseDraft draft, double ml) {
    draft.given("PT1H", ml, 0.0, 50.0);
    draft.roomMl = 6.0;
  }

  private static void dayDone(CaseDraft draft, double roomMl) {
    draft.given("PT1H", 60.0, 0.0, 50.0);
    draft.roomMl = roomMl;
  }

  private static void hoseWaits(CaseDraft draft, double minutes) {
    draft.hose = new Case.HoseFacts(0.0, 5.0, true, minutes);
  }

  private static void soaks(CaseDraft draft, String since) {
    draft.lastPassAt = ago(since);
    draft.soaking = new Soaking(0.5, 0);
  }

  private static List<Boundary> feed() {
    Boundary stage =
        new Boundary("stage StageLimit")
            .held("struck", d -> d.stage = RootStage.STRUCK, 0.0, 2.0, "stage")
            .held("white", d -> d.stage = RootStage.WHITE, 1.0, 2.0, "stage")
            .free("toughened", d -> d.stage = RootStage.TOUGHENED)
            .free("circling", d -> d.stage = RootStage.CIRCLING);
    Boundary dryRoots =
        new Boundary("dry-roots DryRootsLimit")
            .passedBy(Cause.FED_RESCUE)
            .free("at 0.8", d -> d.depletion = 0.8)
            .held("beyond", d -> d.depletion = 0.801, 0.801, 0.8, "depletion")
            .free("unknown", d -> d.depletion = Double.NaN);
    Boundary dried =
        new Boundary("dry-roots PlainFirstLimit[why=DRIED]")
            .passedBy(Cause.FED_RESCUE, Cause.ORDER)
            .held("dried to 0.81", d -> d.driest = 0.81, 0.81, 0.8, "depletion", "dried")
            .free("dried to 0.8", d -> d.driest = 0.8)
            .held("5 mL of plain water", d -> driedBeside(d, 5.0), 0.81, 0.8, "depletion", "dried")
            .free("4.9 mL of it", d -> driedBeside(d, 4.9));
    Boundary bypass =
        new Boundary("dry-roots PlainFirstLimit[why=BYPASS]")
            .passedBy(Cause.FED_RESCUE, Cause.ORDER)
            .held("halved", d -> d.soaking = new Soaking(0.5, 0), 0.5, 1.0, "pass", "bypass")
            .free("whole again", d -> d.soaking = Soaking.USUAL);
    Boundary strength =
        new Boundary("strength StrengthLimit")
            .capped("half of the label", d -> ceiling(d, 0.5), 0.5, 0.5, 0.5, "label", "")
            .held("none at all", d -> ceiling(d, 0.0), 0.0, 0.0, "label");
    FeedStrength none = new FeedStrength(0.0, FeedStrength.Cap.LABEL, 0.3, 0.0);
    FeedStrength thinned = new FeedStrength(0.1, FeedStrength.Cap.SALT, 2.2, 2.6);
    Boundary stageStrength =
        new Boundary("strength StageStrengthLimit")
            .passedBy(Cause.FED_RESCUE, Cause.ORDER)
            .free("unbound", d -> d.mostFeed = FeedStrength.UNBOUND)
            .held("no allowance", d -> d.mostFeed = none, 0.3, 0.0, "label", "label")
            .capped("salts", d -> d.mostFeed = thinned, 0.1, 2.2, 2.6, "mS/cm", "salt");
    // 200 mL available; a pass of 30 mL.
    Boundary ledger =
        new Boundary("ledger LedgerLimit")
            .free("no feed", d -> d.feed = null)
            .capped("nothing yet", d -> fed(d, "P13D", 0), 200 / 30.0, 0.0, 1.0, "label", "")
            .capped("half", d -> fed(d, "P13D", 100), 100 / 30.0, 0.5, 1.0, "label", "")
            .held("all", d -> fed(d, "P13D", 200), 1.0, 1.0, "label")
            .held("more", d -> fed(d, "P13D", 210), 1.05, 1.0, "label")
            .capped("two weeks ago", d -> fed(d, "P14D", 200), 200 / 30.0, 1.0, 1.0, "label", "");
    Boundary salt =
        new Boundary("salt SaltLimit")
            .free("at 2.6", d -> d.saltMsPerCm = 2.6)
            .held("beyond", d -> d.saltMsPerCm = 2.601, 2.601, 2.6, "mS/cm");
    Boundary dark =
        new Boundary("dark-season DarkSeasonLimit")
            .passedBy(Cause.FED_RESCUE)
            .free("none", d -> d.today = LocalDate.parse("2026-12-10"))
            .free("the day before", d -> pause(d, "--12-01", "--12-24", "2026-11-30"))
            .held("its first", d -> pause(d, "--12-01", "--12-24", "2026-12-01"), 1.0, 0.0, "")
            .held("its last", d -> pause(d, "--12-01", "--12-24", "2026-12-24"), 1.0, 0.0, "")
            .free("the day after", d -> pause(d, "--12-01", "--12-24", "2026-12-25"))
            .free("before the turn", d -> pause(d, "--12-15", "--01-31", "2026-12-14"))
            .held("first of the turn", d -> pause(d, "--12-15", "--01-31", "2026-12-15"), 1, 0, "")
            .held("last of the turn", d -> pause(d, "--12-15", "--01-31", "2027-01-31"), 1, 0, "")
            .free("after the turn", d -> pause(d, "--12-15", "--01-31", "2027-02-01"));
    return List.of(stage, dryRoots, dried, bypass, strength, stageStrength, ledger, salt, dark);
  }

  private static void driedBeside(CaseDraft draft, double plainMl) {
    draft.driest = 0.81;
    draft.supply = new Supply("plain", plainMl, "feed", "leafy", 4_000.0, 0.5);
  }

  private static void ceiling(CaseDraft draft, double most) {
    FeedingRules usual = FeedingRules.USUAL;
    draft.feeding =
        new FeedingRules(
            usual.floor(),
            most,
            usual.target(),
            usual.strength(),
            usual.mostNMgPerL(),
            usual.pause(),
            usual.plan());
  }

  private static void fed(CaseDraft draft, String ago, double ml) {
    draft.given(ago, ml, 1.0, 500.0);
    draft.fed = ml / 200.0;
  }

  private static void pause(CaseDraft draft, String from, String until, String today) {
    FeedingRules usual = FeedingRules.USUAL;
    draft.feeding =
        new FeedingRules(
            usual.floor(),
            usual.ceiling(),
            usual.target(),
            usual.strength(),
            usual.mostNMgPerL(),
            Optional.of(new FeedingRules.Pause(MonthDay.parse(from), MonthDay.parse(until))),
            usual.plan());
    draft.today = LocalDate.parse(today);
  }
}
