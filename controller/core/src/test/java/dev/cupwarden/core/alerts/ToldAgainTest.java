package dev.cupwarden.core.alerts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A bench of a hundred cups, C00 to C99, looked at every five minutes. */
class ToldAgainTest {
  private static final Duration LOOK = Duration.ofMinutes(5);
  private static final Instant START = Instant.parse("2027-01-08T18:00:00Z");

  private final TreeSet<String> names = new TreeSet<>();
  private final List<Said> said = new ArrayList<>();
  private SortedMap<String, OpenAlert> open = new TreeMap<>();
  private Instant at = START;

  /** What was told, and when. */
  private record Said(Instant at, AlertNotice notice) {}

  @BeforeEach
  void bench() {
    for (int cup = 0; cup < 100; cup++) {
      names.add(cup(cup));
    }
  }

  @Test
  void anAlertOfFridayIsToldOnSaturdaySundayAndMondayWithItsFirstSince() {
    run(Duration.ofDays(3), on(AlertCode.DOSE_SHORT, "C01"));
    assertEquals(List.of(START, days(1), days(2), days(3)), said.stream().map(Said::at).toList());
    assertTrue(said.stream().allMatch(one -> one.notice().since().equals(START)));
    assertTrue(said.stream().allMatch(one -> one.notice().state().equals("raised")));
    assertEquals(
        List.of(false, true, true, true), said.stream().map(one -> one.notice().again()).toList());
  }

  @Test
  void ticksThatComeLateLeaveNoMoreThanADayOfSilence() {
    for (int look = 0; look < 600; look++) {
      look(on(AlertCode.DOSE_SHORT, "C01"));
      at = at.plus(LOOK).plusSeconds(7);
    }
    assertEquals(3, said.size());
    for (int i = 1; i < said.size(); i++) {
      Duration silence = Duration.between(said.get(i - 1).at(), said.get(i).at());
      assertTrue(silence.compareTo(Duration.ofDays(1)) <= 0, silence.toString());
      assertTrue(silence.compareTo(Duration.ofHours(23)) > 0, silence.toString());
    }
  }

  @Test
  void whatIsNotJudgedNowIsToldAgainInItsLastWords() {
    look(on(AlertCode.CUP_AWAY, "C01"));
    at = at.plus(LOOK);
    run(Duration.ofDays(1), now -> {});
    assertEquals(2, said.size());
    assertEquals(said.get(0).notice().toldAgain(), said.get(1).notice());
  }

  @Test
  void leakIsToldByTheHourWhileItIsWetAndDailyOnceItIsDry() {
    Condition leak = new Condition(AlertCode.LEAK, null, Condition.Level.ON, 1.0, 0.0);
    run(Duration.ofHours(3), now -> now.add(leak.severe(1)));
    assertEquals(4, said.size());
    run(Duration.ofHours(20), now -> now.add(leak));
    assertEquals(4, said.size());
    run(Duration.ofHours(5), now -> now.add(leak));
    assertEquals(5, said.size());
  }

  /** Days and millilitres that waver by the hour are no news; the next telling has them. */
  @Test
  void otherFiguresAloneWaitForTheirTime() {
    Condition salty = new Condition(AlertCode.SALTS_HIGH, "C01", Condition.Level.ON, 2.7, 2.6);
    look(now -> now.add(salty.saying("C01: flush it with 300 mL, in 35 days again.")));
    at = at.plus(Duration.ofHours(2));
    look(now -> now.add(salty.saying("C01: flush it with 350 mL, in 40 days again.")));
    assertEquals(1, said.size());
    look(now -> now.add(salty.saying("C02: flush it with 300 mL, in 35 days again.")));
    assertEquals(2, said.size(), "another cup's name is no figure");
    at = at.plus(Duration.ofDays(1));
    look(now -> now.add(salty.saying("C02: flush it with 350 mL, in 40 days again.")));
    assertEquals("C02: flush it with 350 mL, in 40 days again.", said.get(2).notice().whatToDo());
  }

  /** Its bench is asked to weigh what is weeks old; the cup in doubt has words of its own. */
  @Test
  void severeOneIsToldByItselfWhereTheMildAreToldTogether() {
    Consumer<Conditions> old =
        now -> {
          for (int cup = 0; cup < 60; cup++) {
            now.add(AlertCode.WEIGH_DRAINED, cup(cup), Condition.Level.ON, 29.0, 28.0);
          }
        };
    look(old);
    assertEquals(1, said.size());
    at = at.plus(LOOK);
    Condition doubted =
        new Condition(AlertCode.WEIGH_DRAINED, "C03", Condition.Level.ON, 0.3, 0.25);
    look(
        now -> {
          for (int cup = 0; cup < 60; cup++) {
            if (cup == 3) {
              now.add(doubted.saying("It stands in water.").severe(1));
            } else {
              now.add(AlertCode.WEIGH_DRAINED, cup(cup), Condition.Level.ON, 29.0, 28.0);
            }
          }
        });
    assertEquals("C03", said.get(1).notice().cup());
    assertEquals("It stands in water.", said.get(1).notice().whatToDo());
    assertEquals(2, said.size());
  }

  @Test
  void whatNobodyMustActOnIsToldOnce() {
    run(Duration.ofDays(5), on(AlertCode.POT_ON, "C01"));
    assertEquals(1, said.size());
  }

  /** What was never raised is never cleared. */
  @Test
  void whatIsOnlyNearItsLimitIsNeitherToldNorCleared() {
    run(
        Duration.ofDays(2),
        now -> now.add(AlertCode.WET_TOO_LONG, "C01", Condition.Level.BETWEEN, 30.0, 48.0));
    look(now -> now.add(AlertCode.WET_TOO_LONG, "C01", Condition.Level.OFF, 0.0, 48.0));
    assertEquals(List.of(), said);
  }

  @Test
  void whatGrowsWorseIsToldAtOnceAndOtherWordsSoon() {
    Condition near = new Condition(AlertCode.NEAR_DRY, "C01", Condition.Level.ON, 0.6, 0.55);
    look(now -> now.add(near.saying("Near its dry line.")));
    at = at.plus(LOOK);
    look(now -> now.add(near.saying("Past its dry line.").severe(1)));
    assertEquals("Past its dry line.", said.get(1).notice().whatToDo());
    assertEquals(1, said.get(1).notice().severity());
    assertTrue(said.get(1).notice().again());
    at = at.plus(LOOK);
    run(
        Duration.ofMinutes(70),
        now -> now.add(near.saying("Past its dry line, watered.").severe(1)));
    assertEquals(3, said.size());
    assertEquals(Duration.ofMinutes(15), Duration.between(said.get(1).at(), said.get(2).at()));
  }

  @Test
  void twentyFourAlertsOfOneDaySoonGoAsOneMessageADay() {
    Duration each = Duration.ofMinutes(50);
    for (long look = 0; look <= 4 * 288; look++) {
      Duration run = LOOK.multipliedBy(look);
      look(
          now -> {
            for (int cup = 0; cup < 24; cup++) {
              boolean so = run.compareTo(each.multipliedBy(cup)) >= 0;
              now.when(AlertCode.DOSE_SHORT, cup(cup), so, 1.0, 2.0);
            }
          });
      at = at.plus(LOOK);
    }
    List<Instant> messages =
        said.stream().filter(one -> one.notice().again()).map(Said::at).distinct().toList();
    assertTrue(messages.size() <= 5, "messages in three days: " + messages);
    for (int cup = 0; cup < 24; cup++) {
      Instant before = null;
      for (Said one : said) {
        if (one.notice().cup().equals(cup(cup))) {
          assertTrue(before == null || !one.at().isAfter(before.plus(Duration.ofDays(1))));
          before = one.at();
        }
      }
      assertTrue(before != null && before.isAfter(at.minus(Duration.ofDays(1))));
    }
  }

  @Test
  void manyCupsOfOneCauseAreToldAgainAsOneWithTheirNames() {
    run(
        Duration.ofDays(1),
        now -> {
          for (int cup = 0; cup < 4; cup++) {
            now.when(AlertCode.SCALE_SILENT, cup(cup), true, 100.0, 30.0);
          }
        });
    assertEquals(2, said.size());
    assertEquals(List.of("C00", "C01", "C02", "C03"), said.get(1).notice().cups());
    assertTrue(said.get(1).notice().again());
  }

  @Test
  void whatWasPutOffIsSilentUntilThenUnlessItGrowsWorse() {
    Condition near = new Condition(AlertCode.NEAR_DRY, "C01", Condition.Level.ON, 0.6, 0.55);
    look(now -> now.add(near));
    putOff("near-dry", "C01", days(4));
    at = at.plus(LOOK);
    run(Duration.ofDays(2), now -> now.add(near.saying("Other words.")));
    assertEquals(1, said.size());
    look(now -> now.add(near.severe(1)));
    assertEquals(2, said.size());
    putOff("near-dry", "C01", days(4));
    at = at.plus(LOOK);
    run(Duration.between(at, days(4)), now -> now.add(near.severe(1)));
    assertEquals(3, said.size());
    assertEquals(days(4), said.get(2).at());
  }

  @Test
  void putOffThatNamesAnotherCupIsToldBeforeItsTime() {
    Consumer<Conditions> four = cups(AlertCode.NEAR_DRY, 4);
    look(four);
    putOff("near-dry", null, days(4));
    at = at.plus(LOOK);
    run(Duration.ofHours(3), four);
    assertEquals(1, said.size());
    run(Duration.ofMinutes(5), cups(AlertCode.NEAR_DRY, 60));
    assertEquals(2, said.size());
    assertEquals(60, said.get(1).notice().cups().size());
  }

  @Test
  void whatIsNotOpenOrMustBeToldIsNotPutOff() {
    look(on(AlertCode.FROST, null));
    look(on(AlertCode.DOSE_SHORT, "C02"));
    assertEquals(
        Optional.of("alert: frost is not put off: it is told until it is over"),
        refusal("frost", null));
    assertEquals(
        Optional.of("alert: no dose-short of the whole bench is open; it is open of cup C02"),
        refusal("dose-short", null));
    assertEquals(Optional.of("alert: no near-dry of cup C02 is open"), refusal("near-dry", "C02"));
    assertEquals(Optional.empty(), refusal("dose-short", "C02"));
  }

  @Test
  void tanksAreAlertsOfTheirOwn() {
    Condition low = new Condition(AlertCode.TANK_LOW, null, Condition.Level.ON, 300.0, 400.0);
    look(now -> now.add(low.ofTank("feed")));
    at = at.plus(LOOK);
    look(
        now -> {
          now.add(low.ofTank("feed"));
          now.add(low.ofTank("plain"));
        });
    assertEquals(List.of("feed", "plain"), said.stream().map(one -> one.notice().tank()).toList());
    assertEquals(List.of("tank-low/tank:feed", "tank-low/tank:plain"), List.copyOf(open.keySet()));
  }

  @Test
  void aRestartKeepsWhenItWasToldAndAnOlderJournalCountsFromItsBeginning()
      throws JsonProcessingException {
    look(on(AlertCode.DOSE_SHORT, "C01"));
    String kept = Json.written(open.get("dose-short/C01"));
    open = new TreeMap<>();
    open.put("dose-short/C01", Json.MAPPER.readValue(kept, OpenAlert.class));
    String old =
        "{\"code\":\"dose-short\",\"cup\":\"C02\",\"state\":\"raised\",\"since\":\""
            + START.minus(Duration.ofDays(40))
            + "\"}";
    open.put("dose-short/C02", Json.MAPPER.readValue(old, OpenAlert.class));
    at = at.plus(LOOK);
    run(Duration.ofHours(23), now -> {});
    assertEquals(List.of("C01", "C02"), said.stream().map(one -> one.notice().cup()).toList());
    assertEquals(START.minus(Duration.ofDays(40)), said.get(1).notice().since());
  }

  private static Instant days(int days) {
    return START.plus(Duration.ofDays(days));
  }

  private static String cup(int number) {
    return String.format("C%02d", number);
  }

  private static Consumer<Conditions> on(AlertCode code, String cup) {
    return now -> now.when(code, cup, true, 1.0, 0.0);
  }

  private static Consumer<Conditions> cups(AlertCode code, int count) {
    return now -> {
      for (int cup = 0; cup < count; cup++) {
        now.when(code, cup(cup), true, 1.0, 0.0);
      }
    };
  }

  private void putOff(String code, String cup, Instant until) {
    open = new PuttingOff(code, Optional.ofNullable(cup), Optional.empty(), until).in(open);
  }

  private Optional<String> refusal(String code, String cup) {
    return new PuttingOff(code, Optional.ofNullable(cup), Optional.empty(), days(2))
        .refusal(open, at);
  }

  private void look(Consumer<Conditions> conditions) {
    Conditions now = new Conditions(open);
    conditions.accept(now);
    AlertBook.Page page = AlertBook.judge(open, now, at, names, LOOK);
    open = page.open();
    page.changes().forEach(notice -> said.add(new Said(at, notice)));
  }

  /** Looks from now on for that long, both ends included. */
  private void run(Duration time, Consumer<Conditions> conditions) {
    Instant end = at.plus(time);
    while (!at.isAfter(end)) {
      look(conditions);
      at = at.plus(LOOK);
    }
  }
}
