package dev.cupwarden.core.alerts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A bench of twelve cups, A01 to A12. */
class AlertGroupingTest {
  private static final int CUPS = 12;

  private final TreeSet<String> names = new TreeSet<>();
  private final TreeMap<String, Condition.Level> levels = new TreeMap<>();
  private SortedMap<String, OpenAlert> open = new TreeMap<>();
  private Instant at = Instant.parse("2027-01-10T08:00:00Z");

  @BeforeEach
  void bench() {
    for (int cup = 1; cup <= CUPS; cup++) {
      names.add(name(cup));
    }
  }

  @Test
  void fiveScalesFallingSilentAtOnceAreOneAlert() {
    set(1, 5, Condition.Level.ON);
    List<AlertNotice> told = look(AlertCode.SCALE_SILENT);
    assertEquals(1, told.size());
    assertEquals(null, told.get(0).cup());
    assertEquals("raised", told.get(0).state());
    assertEquals(5.0, told.get(0).value());
    assertTrue(told.get(0).whatToDo().startsWith("A01, A02, A03, A04, A05: "));
    assertEquals(List.of(), look(AlertCode.SCALE_SILENT), "told once");
  }

  @Test
  void oneAlertEndsWithItsLastCup() {
    set(1, 5, Condition.Level.ON);
    look(AlertCode.SCALE_SILENT);
    set(1, 4, Condition.Level.OFF);
    assertEquals(List.of(), look(AlertCode.SCALE_SILENT));
    set(5, 5, Condition.Level.OFF);
    List<AlertNotice> told = look(AlertCode.SCALE_SILENT);
    assertEquals(1, told.size());
    assertEquals("cleared", told.get(0).state());
    assertTrue(open.isEmpty());
  }

  @Test
  void threeCupsAreThreeAlerts() {
    set(1, 3, Condition.Level.ON);
    assertEquals(3, look(AlertCode.SCALE_SILENT).size());
  }

  @Test
  void laterCupIsToldByItself() {
    set(1, 4, Condition.Level.ON);
    look(AlertCode.SCALE_SILENT);
    at = at.plus(Duration.ofDays(1));
    set(12, 12, Condition.Level.ON);
    List<AlertNotice> told = look(AlertCode.SCALE_SILENT);
    assertEquals("A12", told.get(0).cup());
    assertTrue(told.get(1).again(), "a day is over, so the bench's is told again");
  }

  @Test
  void cupsThatDryOneAfterTheOtherAreOneFromHalfTheBenchOn() {
    List<AlertNotice> told = new ArrayList<>();
    for (int cup = 1; cup <= CUPS; cup++) {
      at = at.plus(Duration.ofHours(2));
      set(cup, cup, Condition.Level.ON);
      told.addAll(look(AlertCode.NEAR_DRY));
    }
    List<AlertNotice> first = told.stream().filter(notice -> !notice.again()).toList();
    assertEquals(6, first.size(), "five cups, then the bench");
    assertEquals(null, first.get(5).cup());
    AlertNotice last = told.get(told.size() - 1);
    assertEquals(List.of("A06", "A07", "A08", "A09", "A10", "A11", "A12"), last.cups());
  }

  @Test
  void latchesAreClearedCupByCupAndToldSo() {
    set(1, 6, Condition.Level.ON);
    assertEquals(6, look(AlertCode.DOSE_SHORT).size());
  }

  @Test
  void cupThatIsRetiredLeavesWithoutAWord() {
    set(1, 4, Condition.Level.ON);
    look(AlertCode.SCALE_SILENT);
    names.remove("A04");
    levels.remove("A04");
    assertEquals(List.of(), look(AlertCode.SCALE_SILENT));
    assertEquals(4, open.size(), "three cups and their bench");
  }

  private void set(int from, int to, Condition.Level level) {
    for (int cup = from; cup <= to; cup++) {
      levels.put(name(cup), level);
    }
  }

  private List<AlertNotice> look(AlertCode code) {
    Conditions now = new Conditions(open);
    levels.forEach((cup, level) -> now.add(code, cup, level, 1.0, 0.0));
    AlertBook.Page page = AlertBook.judge(open, now, at, names, Duration.ZERO);
    open = page.open();
    return page.changes();
  }

  private static String name(int cup) {
    return String.format("A%02d", cup);
  }
}
